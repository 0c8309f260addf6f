import { freeSheetName } from "./free-sheet-name";
import type { Step, Workbook } from "./port";
import { holdLines } from "./quote-held";
import { quoteFactSteps, readQuoteSheet, wordOn } from "./quote-read";
import {
  dayAfter,
  findQuoteRecord,
  locateQuoteRecord,
  nextNumber,
  recordSteps,
  type Decision,
  type QuoteColumn,
  type QuoteRow,
} from "./quote-record";
import type { QuoteTemplate } from "./counter-schema";
import type { QuoteSources } from "./quote-plan";
import type { SheetLanguage } from "./sheet-language";
import { planSheets, stepsForNewSheets } from "./sheet-plan";
import type { TableTemplate, Template } from "./template-schema";
import { templateOf } from "./templates";
import { dayNumber } from "./visits-sheet";

/** What is written down when a quote is given. */
export interface QuoteOrder {
  /** Day of the quote as `2026-11-25`, from the clock of whoever writes it. */
  readonly day: string;
  /** How long the prices are held. */
  readonly validDays: number;
  readonly job: {
    readonly sheet: string;
    readonly jobNumber: string;
    readonly machine: string;
    readonly customer: string;
  };
  /** The verdict that is quoted. */
  readonly verdict: {
    readonly part: string;
    readonly state: string;
    readonly chance: number;
    readonly sentence: string;
  };
  /** Name of the way that is quoted. */
  readonly way: string;
  /** True where the sheet is to quote this very way; false lets it quote the first it finds. */
  readonly fixed: boolean;
  readonly partNumber: string;
  readonly total: number;
  readonly currency: string;
  /** Minutes of testing to charge; absent where none are. */
  readonly minutes: number | undefined;
  /** Reason, where it is warranty work. */
  readonly warranty: string;
}

export interface WrittenQuote {
  readonly number: string;
  readonly sheet: string;
}

/** What of the workbook a quote is tied to. */
export type QuoteTies = QuoteSources;

/**
 * Writes a quote on a sheet of its own that follows the job, and its row in the record; the record is
 * laid out where the workbook has none. All of it in one batch.
 *
 * @param again - A quote of this job that is still open: it is written anew under its number, on its sheet
 *   where that is in the same language
 */
export async function writeQuote(
  workbook: Workbook,
  order: QuoteOrder,
  ties: QuoteTies,
  language: SheetLanguage,
  again?: QuoteRow,
): Promise<WrittenQuote> {
  const names = await workbook.sheetNames();
  const record = await findQuoteRecord(workbook);
  const steps: Step[] = [];
  let written: WrittenQuote;
  const there = again ? await readQuoteSheet(workbook, again.quoteSheet) : undefined;
  if (again && there?.language === language.code) {
    written = { number: again.number, sheet: again.quoteSheet };
    steps.push(...quoteFactSteps(there, factsOf(order, written.number, language)));
  } else {
    const template = needed("quote");
    written = {
      number: again?.number || nextNumber(record?.rows ?? []),
      sheet: freeSheetName(language.say(template.sheet), names),
    };
    const [plan] = planSheets([template], { sheets: { quote: written.sheet }, quote: ties, language });
    steps.push(...stepsForNewSheets([plan!]));
    const places = new Map(
      [...plan!.inputs].map(([label, at]) => [label, { sheet: written.sheet, ...at, rows: 1, columns: 1 }]),
    );
    steps.push(...quoteFactSteps({ places }, factsOf(order, written.number, language)));
  }
  const cells = rowOf(order, written, record?.language ?? language.code, language);
  if (record) steps.push(...recordSteps(record, again?.row ?? record.freeRow, cells));
  else steps.push(...newRecord(names, written.sheet, cells, language));
  await workbook.apply(steps);
  return written;
}

function newRecord(
  names: readonly string[],
  quoteSheet: string,
  cells: Readonly<Partial<Record<QuoteColumn, string | number>>>,
  language: SheetLanguage,
): readonly Step[] {
  const template = needed("quotes") as TableTemplate;
  const sheet = freeSheetName(language.say(template.sheet), [...names, quoteSheet]);
  const [plan] = planSheets([template], { sheets: { quotes: sheet }, language });
  const located = locateQuoteRecord(sheet, [template.columns.map(({ label }) => language.say(label))])!;
  const first = plan!.inputs.get("number")!.row;
  return [...stepsForNewSheets([plan!]), ...recordSteps(located, first, cells)];
}

/** By the English labels of the sheet, what stands beside them in its language. */
function factsOf(order: QuoteOrder, number: string, { say }: SheetLanguage): Readonly<Record<string, string | number>> {
  return {
    "Quote number": number,
    Date: dayNumber(order.day),
    "Valid until": dayNumber(order.day) + order.validDays,
    Customer: order.job.customer,
    "Way to quote": order.fixed ? say(order.way) : "",
    "Diagnosis minutes": order.minutes ?? "",
    Warranty: order.warranty,
    "Quoted verdict": `${say(order.verdict.part)}: ${say(order.verdict.state)}`,
    "Quoted total": order.total,
  };
}

/** A row of the record in its language; whole sentences only where that is the pane's as well. */
function rowOf(
  order: QuoteOrder,
  written: WrittenQuote,
  language: SheetLanguage["code"],
  pane: SheetLanguage,
): Readonly<Partial<Record<QuoteColumn, string | number>>> {
  const { job, verdict } = order;
  const word = (english: string) => wordOn({ language }, english);
  const sentence = (english: string) => (language === pane.code ? pane.say(english) : english);
  return {
    number: written.number,
    date: order.day,
    valid: dayAfter(order.day, order.validDays),
    sheet: job.sheet,
    "job-number": job.jobNumber,
    machine: job.machine,
    customer: job.customer,
    part: word(verdict.part),
    state: word(verdict.state),
    chance: Math.round(verdict.chance * 1000) / 1000,
    verdict: sentence(verdict.sentence),
    way: sentence(order.way),
    "part-number": order.partNumber,
    total: order.total,
    currency: order.currency,
    decision: "",
    decided: "",
    "quote-sheet": written.sheet,
  };
}

/**
 * Writes what the customer said, in the record and on the quote's own sheet, whose lines stay then as they were
 * quoted; `open` takes it back.
 */
export async function writeDecision(
  workbook: Workbook,
  quote: QuoteRow,
  decision: Decision,
  day: string,
): Promise<void> {
  const record = await findQuoteRecord(workbook);
  const row = record?.rows.find((other) => other.number === quote.number && other.row === quote.row);
  if (!record || !row) throw new Error(`The record has no row for the quote ${quote.number} any more.`);
  const said = decision === "open" ? "" : decision;
  const sheet = quote.quoteSheet === "" ? undefined : await readQuoteSheet(workbook, quote.quoteSheet);
  await workbook.apply([
    ...recordSteps(record, row.row, { decision: wordOn(record, said), decided: said === "" ? "" : day }),
    ...(sheet ? quoteFactSteps(sheet, { Decision: wordOn(sheet, said) }) : []),
    ...(sheet ? holdLines(quote.quoteSheet, sheet, (needed("quote") as QuoteTemplate).lines, said !== "") : []),
  ]);
}

/** Lays out the sheets of the shop that are still missing, each under a free name. */
export async function layOutShop(
  workbook: Workbook,
  missing: { readonly prices: boolean; readonly terms: boolean },
  language: SheetLanguage,
): Promise<readonly string[]> {
  const templates = (["prices", "terms"] as const).filter((id) => missing[id]).map(needed);
  const names = await workbook.sheetNames();
  const sheets = Object.fromEntries(templates.map(({ id, sheet }) => [id, freeSheetName(language.say(sheet), names)]));
  await workbook.apply(stepsForNewSheets(planSheets(templates, { sheets, language })));
  return Object.values(sheets);
}

function needed(id: string): Template {
  const template = templateOf(id);
  if (!template) throw new Error(`The template "${id}" is missing.`);
  return template;
}
