import { isBlank, type Cell } from "../core/cell";
import { areaName, cellName, overlaps } from "./address";
import { WorkbookFault, type Area, type CellWrite, type ReadArea, type Step, type Workbook } from "./port";
import { planSheets, type PlanOptions, type SheetPlan } from "./sheet-plan";
import type { Template } from "./template-schema";

/** More than these are counted, not named. */
const MOST_NAMED = 8;

/**
 * Builds templates in a workbook, in one batch. A sheet that is not there is added; on one that is,
 * what stands there already stays: values in cells to type into, and everything the template would
 * write itself. Any other filled or merged cell stops it before anything is written.
 *
 * @returns The plans, with the cells to type into
 * @throws WorkbookFault of reason `occupied` or `merged`, naming the cells
 */
export async function placeTemplates(
  workbook: Workbook,
  templates: readonly Template[],
  options: PlanOptions = {},
): Promise<readonly SheetPlan[]> {
  const plans = planSheets(templates, options);
  const present = new Map((await workbook.sheetNames()).map((name) => [name.toUpperCase(), name]));
  const batch: Step[] = [];
  for (const plan of plans) {
    if (!present.has(plan.sheet.toUpperCase())) {
      batch.push({ do: "add sheet", sheet: plan.sheet });
      batch.push(...plan.steps);
      continue;
    }
    await refuseMerges(workbook, plan);
    const existing = await workbook.read(plan.area);
    batch.push(...withoutTaken(plan, existing));
  }
  await workbook.apply(batch);
  return plans;
}

async function refuseMerges(workbook: Workbook, plan: SheetPlan): Promise<void> {
  const own = plan.steps.flatMap((step) => (step.do === "merge" ? [step.at] : []));
  const foreign = (await workbook.mergedIn(plan.area)).filter(
    (merged) => !own.some((at) => sameArea(at, merged)) && overlaps(plan.area, merged),
  );
  if (foreign.length === 0) return;
  throw new WorkbookFault(
    `Merged cells are in the way of the sheet "${plan.sheet}": ${named(foreign.map(areaName))}. Nothing was written; unmerge them, or choose another sheet.`,
    "merged",
  );
}

/** The steps of a plan with only such cells written as may be; throws where others are in the way. */
function withoutTaken(plan: SheetPlan, existing: ReadArea): Step[] {
  const taken: string[] = [];
  const steps = plan.steps.map((step): Step => {
    if (step.do !== "write") return step;
    const spilled = spillsIn(step.values, existing);
    const values = step.values.map((line, r) =>
      line.map((content, c): CellWrite => {
        const [row, column] = [step.at.row + r, step.at.column + c];
        const value = existing.values[row]?.[column];
        const formula = existing.formulas[row]?.[column] ?? "";
        if ((isBlank(value) && formula === "") || spilled.has(`${row},${column}`)) return content;
        if (content !== undefined && isSame(content, value, formula)) return undefined;
        if (mayKeep(plan, existing, row, column)) return undefined;
        taken.push(`${cellName(row, column)}`);
        return undefined;
      }),
    );
    return { ...step, values };
  });
  if (taken.length === 0) return steps;
  throw new WorkbookFault(
    `The sheet "${plan.sheet}" already holds something in ${taken.length === 1 ? "cell" : `${taken.length} cells`} (${named(taken)}). Nothing was written; clear ${taken.length === 1 ? "it" : "them"}, or choose another sheet.`,
    "occupied",
  );
}

/** A cell to type into keeps what was typed, where its label is the template's own. */
function mayKeep(plan: SheetPlan, existing: ReadArea, row: number, column: number): boolean {
  const label = plan.labelOf(row, column);
  return label !== undefined && existing.values[label.row]?.[label.column] === label.text;
}

/** Cells that are filled by formulas of ours which stand there already. */
function spillsIn(values: readonly (readonly CellWrite[])[], existing: ReadArea): ReadonlySet<string> {
  const cells = new Set<string>();
  values.forEach((line, row) =>
    line.forEach((content, column) => {
      if (
        typeof content !== "object" ||
        !content.spills ||
        !isSame(content, undefined, existing.formulas[row]?.[column] ?? "")
      )
        return;
      for (let r = 0; r < content.spills.rows; r++) {
        for (let c = 0; c < content.spills.columns; c++) if (r + c > 0) cells.add(`${row + r},${column + c}`);
      }
    }),
  );
  return cells;
}

function isSame(content: Exclude<CellWrite, undefined>, value: Cell, formula: string): boolean {
  if (typeof content === "object") return formula.replaceAll(/\s/gu, "") === content.formula.replaceAll(/\s/gu, "");
  return formula === "" && content === value;
}

function sameArea(a: Area, b: Area): boolean {
  return a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;
}

function named(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMED).join(", ");
  return names.length > MOST_NAMED ? `${shown} and ${names.length - MOST_NAMED} more` : shown;
}
