import { entryOf } from "../core/readings/catalogue";
import { matchLabel } from "../core/readings/match";
import { freeSheetName } from "../workbook/free-sheet-name";
import { unitOf } from "../workbook/input-cells";
import { listLayout } from "../workbook/list-layout";
import { placeTemplates } from "../workbook/place-templates";
import type { Workbook } from "../workbook/port";
import type { SheetLanguage } from "../workbook/sheet-language";
import type { ListTemplate } from "../workbook/template-schema";
import { layOutShop as layOut } from "../workbook/quote-write";
import { templateOf } from "../workbook/templates";
import { languageOf } from "./sheets-language";
import type { Words } from "./words/english";

/** Quotes are laid out by the same means, and are fetched with them. */
export { languageOf } from "./sheets-language";
export { writeDecision, writeQuote } from "../workbook/quote-write";

/** Lists that a job sheet looks values up in; they are laid out with the first job. */
const LISTS = ["machines", "reference"];

/**
 * Lays out a new job sheet, and the lists it looks values up in where the workbook has none. A sheet
 * of the user's own that happens to bear a list's name is left alone; the job then does without it.
 *
 * @param words - The pane's, whose language the sheets get
 * @returns Name of the new sheet
 */
export async function startJob(workbook: Workbook, words: Words): Promise<string> {
  const page = templateOf("job");
  if (!page) throw new Error("The job template is missing.");
  const language = await languageOf(words);
  const names = await workbook.sheetNames();
  const sheet = freeSheetName(language.say(page.sheet), names);
  const existing: ListTemplate[] = [];
  const missing: ListTemplate[] = [];
  for (const id of LISTS) {
    const list = templateOf(id);
    if (list?.kind !== "list") continue;
    const found = await lookFor(workbook, names, list, language);
    if (found === "missing") missing.push(list);
    else if (found) existing.push({ ...list, sheet: found.sheet });
  }
  await placeTemplates(workbook, [page, ...missing], { sheets: { [page.id]: sheet }, existing, language });
  await workbook.activateSheet(sheet);
  return sheet;
}

/** The workbook's list, in whichever language; `undefined` where its name is taken by a sheet of another kind. */
async function lookFor(
  workbook: Workbook,
  names: readonly string[],
  list: ListTemplate,
  { say }: SheetLanguage,
): Promise<{ readonly sheet: string } | "missing" | undefined> {
  const called = [say(list.sheet), list.sheet, ...(list.alsoNamed ?? [])].map((name) => name.toUpperCase());
  for (const sheet of names)
    if (called.includes(sheet.toUpperCase()) && (await isOurs(workbook, sheet, list))) return { sheet };
  return names.some((name) => name.toUpperCase() === called[0]) ? undefined : "missing";
}

/** True where the sheet's header row is still the list's own. */
async function isOurs(workbook: Workbook, sheet: string, list: ListTemplate): Promise<boolean> {
  const { headerRow, columns } = listLayout(list, sheet);
  const { values } = await workbook.read({ sheet, row: headerRow, column: 0, rows: 1, columns: columns.length });
  return columns.every((id, column) => {
    const entry = entryOf(id);
    const match = matchLabel(String(values[0]?.[column] ?? ""));
    return entry !== undefined && match?.entry === entry && (match.unit ?? unitOf(entry)) === unitOf(entry);
  });
}

/** Lays out the list of visits under its own name, and the machines that its verdicts look up. */
export async function startVisits(workbook: Workbook, words: Words): Promise<void> {
  const list = templateOf("fleet");
  const machines = templateOf("machines");
  if (!list || machines?.kind !== "list") throw new Error("The template of the visits is missing.");
  const language = await languageOf(words);
  const found = await lookFor(workbook, await workbook.sheetNames(), machines, language);
  if (found === "missing") await placeTemplates(workbook, [list, machines], { language });
  else
    await placeTemplates(workbook, [list], { existing: found ? [{ ...machines, sheet: found.sheet }] : [], language });
}

/** Lays out the sheets of the shop that are still missing, each under a free name. */
export async function layOutShop(
  workbook: Workbook,
  missing: { readonly prices: boolean; readonly terms: boolean },
  words: Words,
): Promise<readonly string[]> {
  return layOut(workbook, missing, await languageOf(words));
}

/** Lays out the list of known-good parts under its own name. */
export async function startKnownGood(workbook: Workbook, words: Words): Promise<void> {
  const list = templateOf("reference");
  if (list) await placeTemplates(workbook, [list], { language: await languageOf(words) });
}
