import { isBlank, isCellError, type Block, type Cell } from "../core/cell";
import { englishWord } from "../core/quote/shop-words";
import { plainName } from "./list-sheet";
import type { Area, Step, Workbook } from "./port";
import type { SheetLanguage } from "./sheet-language";
import { FIRST_ROWS, sheetTops } from "./sheet-tops";
import { dayNumber, dayOf } from "./visits-sheet";

/** The shop's record of quotes: one row for each quote that was given, found by its headers in either language. */

/** Headers as the template lays them out; they are looked for by these words and the Spanish ones. */
export const QUOTE_HEADERS = {
  number: "Quote number",
  date: "Quoted on",
  valid: "Valid until",
  sheet: "Job sheet",
  "job-number": "Job number",
  machine: "Machine",
  customer: "Customer",
  part: "Part",
  state: "State",
  chance: "Chance",
  verdict: "Verdict",
  way: "Quoted as",
  "part-number": "Part number",
  total: "Total",
  currency: "Currency",
  decision: "Decision",
  decided: "Decided on",
  "quote-sheet": "Quote sheet",
} as const;
export type QuoteColumn = keyof typeof QUOTE_HEADERS;

/** What a record of quotes cannot do without. */
const NEEDED: readonly QuoteColumn[] = ["sheet", "part", "state", "total", "decision"];

export type Decision = "accepted" | "declined" | "open";

export interface QuoteRow {
  readonly row: number;
  readonly number: string;
  /** Days as `2026-11-25`. */
  readonly date: string;
  readonly valid: string;
  readonly decided: string;
  readonly sheet: string;
  readonly jobNumber: string;
  readonly machine: string;
  readonly customer: string;
  readonly part: string;
  readonly state: string;
  readonly chance: number | undefined;
  readonly verdict: string;
  readonly way: string;
  readonly partNumber: string;
  readonly total: number | undefined;
  readonly currency: string;
  readonly decision: Decision;
  readonly quoteSheet: string;
}

export interface QuoteRecord {
  readonly sheet: string;
  readonly language: SheetLanguage["code"];
  readonly columns: ReadonlyMap<QuoteColumn, number>;
  readonly rows: readonly QuoteRow[];
  readonly freeRow: number;
}

/** The workbook's record of quotes; `undefined` where no sheet has one. */
export async function findQuoteRecord(workbook: Workbook): Promise<QuoteRecord | undefined> {
  for await (const { sheet, top, whole } of sheetTops(workbook, NEEDED.length))
    if (top.some((row) => isHeader(columnsOf(row)))) return locateQuoteRecord(sheet, await whole());
  return undefined;
}

export function locateQuoteRecord(sheet: string, values: Block): QuoteRecord | undefined {
  const headerRow = values.findIndex((row, r) => r < FIRST_ROWS && isHeader(columnsOf(row)));
  if (headerRow < 0) return undefined;
  const columns = columnsOf(values[headerRow]!);
  const label = values[headerRow]![columns.get("sheet")!];
  const language = plainName(String(label)) === plainName(QUOTE_HEADERS.sheet) ? "en" : "es";
  const rows: QuoteRow[] = [];
  let freeRow = headerRow + 1;
  for (let row = headerRow + 1; row < values.length; row++) {
    const cell = (id: QuoteColumn) => values[row]![columns.get(id) ?? -1];
    if ([...columns.keys()].every((id) => isBlank(cell(id)))) continue;
    rows.push(readRow(row, cell));
    // Below the last row that holds something: a gap may be where a row was struck out.
    freeRow = row + 1;
  }
  return { sheet, language, columns, rows, freeRow };
}

function readRow(row: number, cell: (id: QuoteColumn) => Cell): QuoteRow {
  const text = (id: QuoteColumn) => {
    const value = cell(id);
    return isBlank(value) || isCellError(value) ? "" : String(value).trim();
  };
  const number = (id: QuoteColumn) => {
    const value = cell(id);
    return typeof value === "number" ? value : undefined;
  };
  const word = (id: QuoteColumn) => englishWord(text(id));
  const decision = word("decision").toLowerCase();
  return {
    row,
    number: text("number"),
    date: dayOf(text("date") === "" ? "" : cell("date")),
    valid: dayOf(text("valid") === "" ? "" : cell("valid")),
    decided: dayOf(text("decided") === "" ? "" : cell("decided")),
    sheet: text("sheet"),
    jobNumber: text("job-number"),
    machine: text("machine"),
    customer: text("customer"),
    part: word("part"),
    state: word("state"),
    chance: number("chance"),
    verdict: text("verdict"),
    way: text("way"),
    partNumber: text("part-number"),
    total: number("total"),
    currency: text("currency"),
    decision: decision === "accepted" || decision === "declined" ? decision : "open",
    quoteSheet: text("quote-sheet"),
  };
}

function columnsOf(row: readonly Cell[]): ReadonlyMap<QuoteColumn, number> {
  const columns = new Map<QuoteColumn, number>();
  row.forEach((cell, column) => {
    if (typeof cell !== "string") return;
    const found = (Object.entries(QUOTE_HEADERS) as [QuoteColumn, string][]).find(
      ([, label]) => plainName(label) === plainName(englishWord(cell)),
    );
    if (found && !columns.has(found[0])) columns.set(found[0], column);
  });
  return columns;
}

function isHeader(columns: ReadonlyMap<QuoteColumn, number>): boolean {
  return NEEDED.every((id) => columns.has(id));
}

/** Writes cells of one row, each alone: what stands between them is the shop's own. */
export function recordSteps(
  { sheet, columns }: Pick<QuoteRecord, "sheet" | "columns">,
  row: number,
  cells: Readonly<Partial<Record<QuoteColumn, string | number>>>,
): readonly Step[] {
  return (Object.entries(cells) as [QuoteColumn, string | number][]).flatMap(([id, value]): Step[] => {
    const column = columns.get(id);
    if (column === undefined) return [];
    const at: Area = { sheet, row, column, rows: 1, columns: 1 };
    return [{ do: "write", at, values: [[value]] }];
  });
}

/** The next number in the shop's own row of them: `Q-8` after `Q-7`. */
export function nextNumber(rows: readonly QuoteRow[]): string {
  const last = rows.reduce((most, { number }) => Math.max(most, Number(/^Q-(\d+)$/u.exec(number)?.[1] ?? 0)), 0);
  return `Q-${last + 1}`;
}

/**
 * The day on which an open quote ran out, where it has.
 *
 * @param today - As `2026-11-25`, from the clock of whoever asks
 * @param validDays - How long the shop holds its prices: for records that do not say it themselves
 */
export function expiredOn(
  { decision, date, valid }: Pick<QuoteRow, "decision" | "date" | "valid">,
  today: string,
  validDays: number | undefined,
): string | undefined {
  const last = valid || (validDays === undefined ? "" : dayAfter(date, validDays));
  return decision === "open" && isDay(last) && last < today ? last : undefined;
}

const isDay = (text: string) => /^\d{4}-\d{2}-\d{2}$/u.test(text);

/** So many days after a day, as `2026-12-25`; blank where it is no day. */
export function dayAfter(day: string, days: number): string {
  return isDay(day) ? dayOf(dayNumber(day) + days) : "";
}

/** Which job a quote was for. */
export interface JobOfQuote {
  readonly sheet: string;
  readonly jobNumber: string;
  readonly machine: string;
}

/**
 * Quotes of one job, latest first. The job number decides where both have one: sheets are renamed and
 * their names used again.
 */
export function quotesOf(rows: readonly QuoteRow[], job: JobOfQuote): readonly QuoteRow[] {
  return rows.filter((row) => isQuoteOf(row, job)).reverse();
}

function isQuoteOf(row: QuoteRow, { sheet, jobNumber, machine }: JobOfQuote): boolean {
  if (row.jobNumber !== "" && jobNumber !== "") return plainName(row.jobNumber) === plainName(jobNumber);
  const sameMachine = row.machine === "" || machine === "" || plainName(row.machine) === plainName(machine);
  return row.sheet !== "" && row.sheet === sheet && sameMachine;
}
