import { headerOf } from "../workbook/input-cells";
import { entryOf } from "../core/readings/catalogue";
import { listLayout } from "../workbook/list-layout";
import { freeSheetName } from "../workbook/free-sheet-name";
import { placeTemplates } from "../workbook/place-templates";
import type { Workbook } from "../workbook/port";
import type { ListTemplate } from "../workbook/template-schema";
import { templateOf } from "../workbook/templates";

/** Quotes are laid out by the same means, and are fetched with them. */
export { layOutShop, writeDecision, writeQuote } from "../workbook/quote-write";

/** Lists that a job sheet looks values up in; they are laid out with the first job. */
const LISTS = ["machines", "reference"];

/**
 * Lays out a new job sheet, and the lists it looks values up in where the workbook has none. A sheet
 * of the user's own that happens to bear a list's name is left alone; the job then does without it.
 *
 * @returns Name of the new sheet
 */
export async function startJob(workbook: Workbook): Promise<string> {
  const page = templateOf("job");
  if (!page) throw new Error("The job template is missing.");
  const names = await workbook.sheetNames();
  const sheet = freeSheetName(page.sheet, names);
  const existing: ListTemplate[] = [];
  const missing: ListTemplate[] = [];
  for (const id of LISTS) {
    const list = templateOf(id);
    if (list?.kind !== "list") continue;
    const name = names.find((taken) => taken.toUpperCase() === list.sheet.toUpperCase());
    if (name === undefined) missing.push(list);
    else if (await isOurs(workbook, name, list)) existing.push(list);
  }
  await placeTemplates(workbook, [page, ...missing], { sheets: { [page.id]: sheet }, existing });
  await workbook.activateSheet(sheet);
  return sheet;
}

/** True where the sheet's header row is still the list's own. */
async function isOurs(workbook: Workbook, sheet: string, list: ListTemplate): Promise<boolean> {
  const { headerRow, columns } = listLayout(list, sheet);
  const { values } = await workbook.read({ sheet, row: headerRow, column: 0, rows: 1, columns: columns.length });
  return columns.every((id, column) => {
    const entry = entryOf(id);
    return entry !== undefined && values[0]?.[column] === headerOf(entry);
  });
}

/** Lays out the list of visits under its own name, and the machines that its verdicts look up. */
export async function startVisits(workbook: Workbook): Promise<void> {
  const list = templateOf("fleet");
  const machines = templateOf("machines");
  if (!list || machines?.kind !== "list") throw new Error("The template of the visits is missing.");
  const names = await workbook.sheetNames();
  const name = names.find((taken) => taken.toUpperCase() === machines.sheet.toUpperCase());
  if (name === undefined) await placeTemplates(workbook, [list, machines]);
  else await placeTemplates(workbook, [list], (await isOurs(workbook, name, machines)) ? { existing: [machines] } : {});
}

/** Lays out the list of known-good parts under its own name. */
export async function startKnownGood(workbook: Workbook): Promise<void> {
  const list = templateOf("reference");
  if (list) await placeTemplates(workbook, [list]);
}
