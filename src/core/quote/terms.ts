import Big from "big.js";
import { isBlank, isCellError, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import type { Money, MoneyRules } from "./money";
import { decimalOf, isForeign } from "./amount";
import { OPERATIONS } from "./operations";
import type { Use } from "./price-list";
import { inEnglishWords, plain } from "./shop-words";

/** The shop's Terms sheet: rates, tax, rounding, and what is known of this job's quote. */
export interface Terms {
  readonly money: MoneyRules;
  /** Per hour; absent until the shop sets it: an hour without a rate is named, never free. */
  readonly labourRate?: Money;
  /** Per hour of testing; the labour rate unless set. */
  readonly diagnosisRate?: Money;
  /** Minutes of testing already spent. */
  readonly diagnosisMinutes: Big;
  /** Share of labour charged as shop supplies. */
  readonly suppliesShare: Big;
  readonly suppliesCap?: Money;
  readonly tax: { readonly parts: Big; readonly labour: Big; readonly charges: Big };
  readonly taxOn: "line" | "total";
  readonly validDays: number;
  readonly machine: string;
  /** Part number of the part on the machine, where it was read off. */
  readonly partNumber: string;
  /** Part numbers of single parts, as a job sheet holds them; they go before `partNumber`. */
  readonly partNumbers: ReadonlyMap<Use, string>;
  /** Reason; blank where the job is not warranty. */
  readonly warranty: string;
  /** The shop's own hours by operation, over the common-practice ones. */
  readonly hours: ReadonlyMap<string, Big>;
  /** Labels of a rate, a tax or hours that are none of the terms: a quote without it would be wrong, so it says so. */
  readonly unknown: readonly string[];
}

export const DEFAULT_TERMS: Terms = {
  money: { currency: "USD", decimals: 2, rounding: "half up" },
  diagnosisMinutes: new Big(0),
  suppliesShare: new Big(0),
  tax: { parts: new Big(0), labour: new Big(0), charges: new Big(0) },
  taxOn: "line",
  validDays: 30,
  machine: "",
  partNumber: "",
  partNumbers: new Map(),
  warranty: "",
  hours: new Map(),
  unknown: [],
};

type Draft = { -readonly [K in keyof Terms]: Terms[K] } & {
  hours: Map<string, Big>;
  partNumbers: Map<Use, string>;
  unknown: string[];
};
type Setter = (draft: Draft, value: Big) => void;

const share = (name: string, limit: number, set: Setter): [string, NumberTerm] => [
  name,
  { min: 0, max: limit, set, share: true },
];
interface NumberTerm {
  readonly min: number;
  readonly max: number;
  readonly share?: boolean;
  /** An amount of money, which is in the shop's own currency. */
  readonly money?: boolean;
  readonly set: Setter;
}

const NUMBERS = new Map<string, NumberTerm>([
  ["labour rate", { min: 0, max: 10000, money: true, set: (d, v) => void (d.labourRate = v) }],
  ["diagnosis rate", { min: 0, max: 10000, money: true, set: (d, v) => void (d.diagnosisRate = v) }],
  ["diagnosis minutes", { min: 0, max: 10000, set: (d, v) => void (d.diagnosisMinutes = v) }],
  share("shop supplies", 1, (d, v) => void (d.suppliesShare = v)),
  ["shop supplies, at most", { min: 0, max: 100000, money: true, set: (d, v) => void (d.suppliesCap = v) }],
  share("tax on parts", 1, (d, v) => void (d.tax = { ...d.tax, parts: v })),
  share("tax on labour", 1, (d, v) => void (d.tax = { ...d.tax, labour: v })),
  share("tax on charges", 1, (d, v) => void (d.tax = { ...d.tax, charges: v })),
  ["decimals", { min: 0, max: 3, set: (d, v) => void (d.money = { ...d.money, decimals: v.round(0).toNumber() }) }],
  ["smallest coin", { min: 0, max: 100, money: true, set: (d, v) => void (d.money = { ...d.money, smallestCoin: v }) }],
  ["valid days", { min: 1, max: 3650, set: (d, v) => void (d.validDays = v.toNumber()) }],
]);

/**
 * Reads the Terms sheet: two columns, label and value, any order; what is blank keeps its default.
 *
 * @param block - Cells; a blank block gives the defaults
 * @param job - Rows of the same kind that go over them
 * @returns Terms; the first value that cannot be read, or the second of one term, as a fault that names it
 */
export function readTerms(block: Block, job: Block = []): Result<Terms> {
  const draft: Draft = { ...DEFAULT_TERMS, hours: new Map(), partNumbers: new Map(), unknown: [] };
  const amounts = new Map<string, Cell>();
  const met = new Map<string, string>();
  for (const [i, row] of [...block, ...job].entries()) {
    const [labelCell, cell] = row;
    if (isBlank(labelCell) || isBlank(cell)) continue;
    if (isCellError(labelCell)) continue;
    const label = labelOf(labelCell);
    const typed = isCellError(cell) ? cell.error : String(cell).trim();
    const term = NUMBERS.get(label);
    const hoursOf = /^hours,\s*(.+)$/u.exec(label)?.[1];
    // A rate that stands twice, under two names it may be, is a slip of which nobody knows the right one.
    if (i < block.length && (hoursOf !== undefined || isTermLabel(labelCell))) {
      if ((met.get(label) ?? typed) !== typed)
        return fail({ code: "not-understood", what: `terms, ${label}`, came: typed, expected: "one value only" });
      met.set(label, typed);
    }
    if (term || hoursOf !== undefined) {
      const value = decimalOf(cell);
      const { min, max } = term ?? { min: 0, max: 200 };
      if (!value || value.lt(min) || value.gt(max)) {
        const expected = term?.share ? "a share such as 0.07 or 7 %" : `a number from ${min} to ${max}`;
        return fail({ code: "not-understood", what: `terms, ${label}`, came: typed, expected });
      }
      if (term?.money) amounts.set(label, cell);
      if (term) term.set(draft, value);
      else if (OPERATIONS.has(hoursOf!)) draft.hours.set(hoursOf!, value);
      else draft.unknown.push(label);
      continue;
    }
    const fault = setWord(draft, label, typed);
    if (fault) return fault;
  }
  const { currency } = draft.money;
  if (!met.has("decimals")) draft.money = { ...draft.money, decimals: decimalsOf(currency) };
  for (const [label, cell] of amounts)
    if (isForeign(cell, currency))
      return fail({
        code: "not-understood",
        what: `terms, ${label}`,
        came: String(cell),
        expected: `an amount in ${currency}, or set the currency`,
      });
  if (!draft.diagnosisRate && draft.labourRate) draft.diagnosisRate = draft.labourRate;
  return ok(draft);
}

/** Common currencies without cents, and with thousandths [ISO 4217, minor units]. */
const NO_CENTS = "CLP ISK JPY KRW PYG VND XAF XOF";
const THOUSANDTHS = "BHD JOD KWD OMR TND";

function decimalsOf(currency: string): number {
  return NO_CENTS.includes(currency) ? 0 : THOUSANDTHS.includes(currency) ? 3 : 2;
}

const WORDS = ["currency", "rounding", "tax figured on"];

/** True where a label is one of a shop's terms; labels of a single job are not. */
export function isTermLabel(cell: Cell): boolean {
  if (typeof cell !== "string") return false;
  const label = labelOf(cell);
  return (NUMBERS.has(label) && label !== "diagnosis minutes") || WORDS.includes(label);
}

/** What shops call a term, by the term. */
const CALLED: Readonly<Record<string, readonly string[]>> = {
  "labour rate": ["shop rate", "hourly rate", "labour per hour", "labour rate per hour", "rate per hour"],
  "diagnosis rate": ["diagnostic rate", "testing rate"],
  "tax on parts": ["parts tax", "tax parts", "sales tax on parts", "vat on parts"],
  "tax on labour": ["labour tax", "tax labour", "sales tax on labour", "vat on labour"],
};
const TERM_CALLED = new Map(Object.entries(CALLED).flatMap(([term, names]) => names.map((name) => [name, term])));
/** Only where nobody can miss it: a label that speaks of a rate or a tax. */
const RATE_OR_TAX = /\b(?:tax(?:es)?|vat|gst|iva|impuestos?|labour|rate|tarifa)\b/u;

function labelOf(cell: Cell): string {
  const label = inEnglishWords(plain(String(cell).replace(/\s*[([].*$/u, ""))).replaceAll(/\blabor\b/gu, "labour");
  return TERM_CALLED.get(label) ?? label;
}

function setWord(draft: Draft, label: string, typed: string): Result<Terms> | undefined {
  const word = inEnglishWords(plain(typed));
  const refuse = (expected: string) =>
    fail<Terms>({ code: "not-understood", what: `terms, ${label}`, came: typed, expected });
  switch (label) {
    case "currency":
      if (!/^[A-Z]{3}$/u.test(typed)) return refuse("a currency code of three letters, such as USD");
      draft.money = { ...draft.money, currency: typed };
      return undefined;
    case "rounding":
      if (word !== "half up" && word !== "half even") return refuse("half up or half even");
      draft.money = { ...draft.money, rounding: word };
      return undefined;
    case "tax figured on":
      if (word !== "line" && word !== "total") return refuse("line or total");
      draft.taxOn = word;
      return undefined;
    case "machine":
      draft.machine = typed;
      return undefined;
    case "part number":
      draft.partNumber = typed;
      return undefined;
    case "regulator part number":
      draft.partNumbers.set("regulator-rectifier", typed);
      return undefined;
    case "battery part number":
    case "rotor part number":
    case "stator part number":
      draft.partNumbers.set(label.split(" ")[0] as Use, typed);
      return undefined;
    case "warranty":
      if (word === "yes" || word === "si" || word === "true")
        return refuse("the reason, or nothing where the customer pays");
      draft.warranty = word === "no" || word === "false" ? "" : typed;
      return undefined;
    default:
      // Other rows of a shop's Terms sheet are the shop's own business.
      if (RATE_OR_TAX.test(label)) draft.unknown.push(label);
      return undefined;
  }
}
