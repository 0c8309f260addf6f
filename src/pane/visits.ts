import { jobSheets } from "../workbook/job-sheet";
import { plainName, type ListRow } from "../workbook/list-sheet";
import type { Step, Workbook } from "../workbook/port";
import { cellsOfVisit } from "../workbook/visits-close";
import { dayOf } from "../workbook/visits-sheet";
import { areaOf, openJob, type OpenJob } from "./open-job";
import type { Words } from "./words/english";

/**
 * Opens a visit that is written down: the sheet it was taken on, where the workbook still has it,
 * else a new job sheet with what was written down.
 *
 * @returns Name of the sheet
 */
export async function reopenVisit(workbook: Workbook, visit: ListRow, words: Words): Promise<string> {
  const there = await sheetOfVisit(workbook, visit);
  if (there !== undefined) {
    await workbook.activateSheet(there);
    return there;
  }
  const { startJob } = await import("./start-job");
  const sheet = await startJob(workbook, words);
  const open = await openJob(workbook, sheet);
  if (!open) throw new Error(`The sheet "${sheet}" is no job.`);
  await workbook.apply(fillSteps(open, visit));
  return sheet;
}

async function sheetOfVisit(workbook: Workbook, visit: ListRow): Promise<string | undefined> {
  const name = plainName(String(visit.typed.get("machine-name") ?? ""));
  const day = dayOf(visit.typed.get("visit-date"));
  for (const sheet of await jobSheets(workbook)) {
    const open = await openJob(workbook, sheet);
    if (!open) continue;
    const { typed } = open.before;
    if (plainName(String(typed.get("machine-name") ?? "")) === name && dayOf(typed.get("visit-date")) === day)
      return sheet;
  }
  return undefined;
}

function fillSteps(open: OpenJob, visit: ListRow): Step[] {
  return [...cellsOfVisit(visit)].flatMap(([id, cell]): Step[] => {
    const at = open.place.cells.get(id);
    const content = id === "visit-date" ? dayOf(visit.typed.get("visit-date")) : cell;
    return at ? [{ do: "write", at: areaOf(open.sheet, at), values: [[content]] }] : [];
  });
}
