import type { Block } from "../core/cell";
import { checksTaken } from "../core/diagnosis/checks-taken";
import type { Money } from "../core/quote/money";
import { faultsBehind } from "../core/quote/faults-behind";
import type { Alternative, QuotedVerdict } from "../core/quote/quote";
import { quoteFromSheets, type PricedQuote } from "../core/quote/quote-from-sheets";
import { checkOf } from "../core/readings/catalogue";
import type { Job, Part } from "../core/readings/types";
import type { Result } from "../core/result";
import type { QuoteOrder } from "../workbook/quote-write";
import type { ShopSheets } from "../workbook/quote-sources";
import type { Assessment } from "./assess";
import type { OpenJob } from "./open-job";

/** What is typed at the counter for one quote. */
export interface OrderTexts {
  readonly customer: string;
  readonly minutes: string;
  readonly warranty: string;
}

const MOST_MINUTES = 10_000;

/** Minutes of testing as typed: `undefined` where none are charged, `NaN` where it cannot be read. */
export function minutesOf(typed: string): number | undefined {
  const text = typed.trim().replace(/\s*min\.?$/iu, "");
  if (text === "") return undefined;
  const minutes = /^\d+(?:[.,]\d+)?$/u.test(text) ? Number(text.replace(",", ".")) : Number.NaN;
  return minutes <= MOST_MINUTES ? minutes : Number.NaN;
}

/** Minutes that the checks take of which readings stand on the sheet, by the catalogue. */
export function minutesTaken(job: Job): number {
  return checksTaken(job).reduce((sum, id) => sum + (checkOf(id)?.minutes ?? 0), 0);
}

export interface JobPrices {
  /** What the verdict calls for. */
  readonly priced: Result<PricedQuote>;
  /** Parts that are only suspect beside a proven one, and what the check would cost that comes next. */
  readonly alsoSuspect: readonly Part[];
  readonly check: Money | undefined;
}

/** Prices the verdict of a job from the shop's sheets; `undefined` before the first reading. */
export function pricesOf(
  open: OpenJob,
  { explained, nextChecks }: Assessment,
  { prices, terms }: ShopSheets,
  texts: OrderTexts,
): JobPrices | undefined {
  if (!explained || !prices || !terms) return undefined;
  const { verdict, parts, faults } = explained.diagnosis;
  const next = nextChecks[0];
  const nextCheck = next ? { nextCheck: { label: next.label, minutes: next.minutes } } : {};
  const quoted = (part: Part | "none", state: QuotedVerdict["state"], sentence: string): QuotedVerdict => ({
    ...(part === "none" ? {} : { part, faults: faultsBehind(part, faults) }),
    state,
    sentence,
    ...nextCheck,
  });
  const facts = factsOf(open, texts);
  const price = (of: QuotedVerdict) => quoteFromSheets(of, prices.values, terms.values, facts);
  const priced = price(quoted(verdict.part, verdict.state, verdict.sentence));
  const alsoSuspect = parts.filter(({ part, state }) => part !== verdict.part && state === "suspect");
  const first = verdict.state === "faulty" ? alsoSuspect[0] : undefined;
  const check = first ? price(quoted(first.part, first.state, first.sentence)) : undefined;
  return {
    priced,
    alsoSuspect: verdict.state === "faulty" ? alsoSuspect.map(({ part }) => part) : [],
    check: check?.ok ? checkPrice(check.value.quote.alternatives[0]) : undefined,
  };
}

/** The check alone, with its tax where that is figured line by line. */
function checkPrice(alternative: Alternative | undefined): Money | undefined {
  const line = alternative?.lines.find(({ kind }) => kind === "further check");
  return line?.net.plus(line.tax);
}

/** Labels and values of the job, as its quote's sheet holds them. */
function factsOf({ before }: OpenJob, { minutes, warranty }: OrderTexts): Block {
  const cell = (id: string) => before.typed.get(id);
  const charged = minutesOf(minutes);
  return [
    ["Machine", cell("machine-name")],
    ["Regulator part number", cell("regulator-part-number")],
    ["Stator part number", cell("stator-part-number")],
    ["Diagnosis minutes", Number.isNaN(charged) ? undefined : charged],
    ["Warranty", warranty.trim()],
  ];
}

/** What is written down of a quote. */
export function orderOf(
  open: OpenJob,
  { explained }: Assessment,
  { quote, terms }: PricedQuote,
  chosen: Alternative,
  texts: OrderTexts,
  day: string,
): QuoteOrder {
  const text = (id: string) => String(open.before.typed.get(id) ?? "").trim();
  const { part, state, chance, sentence } = explained!.diagnosis.verdict;
  return {
    day,
    validDays: terms.validDays,
    job: {
      sheet: open.sheet,
      jobNumber: text("job-number"),
      machine: text("machine-name"),
      customer: texts.customer.trim(),
    },
    verdict: { part, state, chance, sentence },
    way: chosen.name,
    // Only ways to repair are chosen among; the check to do next may be another one tomorrow.
    fixed: quote.kind === "repair",
    partNumber: chosen.lines.find(({ kind }) => kind === "part")?.partNumber ?? "",
    total: chosen.total.toNumber(),
    currency: terms.money.currency,
    minutes: minutesOf(texts.minutes),
    warranty: texts.warranty.trim(),
  };
}
