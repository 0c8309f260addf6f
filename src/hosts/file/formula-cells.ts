import type { Area } from "../../workbook/port";
import { callsOurs, movedFormula, typedSpelling } from "./file-formula";
import { reachOf, type Reach } from "./formula-reach";
import type { StoredWorkbook } from "./read-workbook";
import type { StoredCell } from "./sheet-cells";

/** A formula of a file, ready to be thought about. */
export interface FormulaCell {
  readonly sheet: string;
  readonly stored: StoredCell;
  /** As people type it, with `=`, tables resolved to addresses. */
  readonly formula: string;
  readonly reach: Reach;
  readonly ours: boolean;
  /** Cells that hold its last values: itself, and what an array formula filled. */
  readonly fills: Area;
}

/** Every formula of a workbook; the members of shared groups written out. */
export function formulaCells(book: StoredWorkbook): readonly FormulaCell[] {
  const cells: FormulaCell[] = [];
  for (const { name: sheet, rows } of book.sheets) {
    const groups = new Map<string, StoredCell>();
    for (const stored of rows.flatMap((row) => row.cells)) {
      const { formula } = stored;
      if (!formula || formula.kind === "data table") continue;
      const text = sharedText(stored, groups);
      if (text === undefined || text === "") continue;
      const reach = reachOf(typedSpelling(text), { sheet, row: stored.row }, book);
      const ref = formula.kind === "array" ? formula.ref : undefined;
      cells.push({
        sheet,
        stored,
        formula: reach.formula,
        reach,
        ours: callsOurs(text) || namesCallOurs(reach, book),
        fills:
          ref && ref.row === stored.row && ref.column === stored.column ? { sheet, ...ref } : single(sheet, stored),
      });
    }
  }
  return cells;
}

/** A defined name may stand for a formula that calls a function of ours. */
function namesCallOurs(reach: Reach, book: StoredWorkbook): boolean {
  const ours = book.names.filter(({ formula }) => callsOurs(formula));
  return ours.some(({ name }) => reach.formula.toUpperCase().includes(name.toUpperCase()));
}

function sharedText(stored: StoredCell, groups: Map<string, StoredCell>): string | undefined {
  const formula = stored.formula!;
  if (formula.kind !== "shared" || formula.group === undefined) return formula.text;
  if (formula.text !== "") {
    groups.set(formula.group, stored);
    return formula.text;
  }
  const first = groups.get(formula.group);
  return first && movedFormula(first.formula!.text, first, stored);
}

function single(sheet: string, { row, column }: StoredCell): Area {
  return { sheet, row, column, rows: 1, columns: 1 };
}
