import { WorkbookFault, type Step } from "../../workbook/port";
import { workbookFault } from "./faults";
import { prepareFormat } from "./steps/format";
import { prepareColumnWidth, prepareFreeze, prepareMerge, preparePrint, prepareRowHeight } from "./steps/layout";
import { prepareColourRule, prepareValidation } from "./steps/rules";
import { MOST_CELLS, Scope, type Prepared } from "./steps/scope";
import { prepareChart, prepareName, prepareSheet, prepareTable } from "./steps/sheet-objects";
import { prepareWiderTable } from "./steps/wider-table";
import { prepareWrite } from "./steps/write";

/** Times that putting back is tried before the user is told. */
const TRIES = 3;

/**
 * Carries out every step or none: one round trip to read what is there, one to write. Excel itself
 * stops at the first request that fails and leaves the earlier ones done, so what was read first is
 * put back then.
 */
export async function applyBatch(context: Excel.RequestContext, batch: readonly Step[]): Promise<void> {
  const scope = new Scope(
    context,
    batch.flatMap((step) => (step.do === "add sheet" ? [step.sheet] : [])),
  );
  const steps: Prepared[] = [];
  let load = 0;
  for (const step of batch) {
    const prepared = prepare(scope, step);
    load += weightOf(prepared);
    steps.push(...prepared);
    if (load > MOST_CELLS * 2) {
      await context.sync();
      load = 0;
    }
  }
  await context.sync();
  if (steps.filter((step) => step.lookCloser?.()).length > 0) await context.sync();
  for (const step of steps) {
    const refusal = step.refusal?.();
    if (refusal) throw refusal;
  }
  try {
    await carryOut(context, steps);
  } catch (error) {
    const fault = workbookFault(error, "Writing to the workbook");
    if (await putBack(context, steps)) throw new WorkbookFault(`${fault.message} Nothing was changed.`, fault.reason);
    throw new WorkbookFault(
      `${fault.message} Excel then refused to put the cells back: look over the sheet, and use Undo (Ctrl+Z) before going on.`,
      fault.reason,
    );
  }
}

async function carryOut(context: Excel.RequestContext, steps: readonly Prepared[]): Promise<void> {
  context.application.suspendApiCalculationUntilNextSync();
  let load = 0;
  for (const step of steps) {
    if (load > 0 && load + step.weight > MOST_CELLS) {
      await context.sync();
      load = 0;
    }
    step.carryOut();
    load += step.weight;
  }
  await context.sync();
}

/** True once everything is as it was. */
async function putBack(context: Excel.RequestContext, steps: readonly Prepared[]): Promise<boolean> {
  for (let tried = 0; tried < TRIES; tried++) {
    try {
      for (const step of steps) step.lookBack?.();
      await context.sync();
      for (const step of [...steps].reverse()) step.putBack?.();
      await context.sync();
      return true;
    } catch {
      // The next try starts again from what is there now.
    }
  }
  return false;
}

function weightOf(steps: readonly Prepared[]): number {
  return steps.reduce((sum, step) => sum + step.weight, 0);
}

function prepare(scope: Scope, step: Step): Prepared[] {
  switch (step.do) {
    case "add sheet":
      return [prepareSheet(scope, step.sheet)];
    case "write":
      return prepareWrite(scope, step.at, step.values);
    case "format":
      return prepareFormat(scope, step.at, step.format);
    case "validate":
      return [prepareValidation(scope, step.at, step.rule)];
    case "colour rule":
      return [prepareColourRule(scope, step.at, step.rule)];
    case "merge":
      return [prepareMerge(scope, step.at)];
    case "column width":
      return [prepareColumnWidth(scope, step.sheet, step.column, step.characters)];
    case "row height":
      return [prepareRowHeight(scope, step.sheet, step.row, step.points)];
    case "freeze":
      return [prepareFreeze(scope, step.sheet, step.rows, step.columns)];
    case "print":
      return [preparePrint(scope, step.at, step.setup)];
    case "table":
      return [prepareTable(scope, step.at, step.name)];
    case "widen table":
      return [prepareWiderTable(scope, step.at, step.name, step.by)];
    case "name":
      return [prepareName(scope, step.name, step.at)];
    case "chart":
      return [prepareChart(scope, step.sheet, step.chart)];
  }
}
