import Big from "big.js";
import type { FaultId } from "../diagnosis/faults";
import type { PartState } from "../judgement/types";
import type { Part } from "../readings/types";
import { faultWords } from "./faults-behind";
import { onePerCondition, partsFor, wantedNumber } from "./find-part";
import { partLines, supplies, TAXED, testing, timeLine, type QuoteLine, type TaxKind } from "./lines";
import { roundMoney, roundToCoin, sum, type Money } from "./money";
import { dependsOnFault, repairsOf, type Repair } from "./operations";
import { plain, type PricedPart, type PriceList } from "./price-list";
import type { Terms } from "./terms";
import { sentenceCase } from "../sentence-case";

/** What the counter quotes from: the verdict as it stands. */
export interface QuotedVerdict {
  /** Absent where no fault was found. */
  readonly part?: Part;
  readonly state: PartState;
  /** What is wrong with the part, likeliest first; absent or empty where only the part is known. */
  readonly faults?: readonly FaultId[];
  readonly sentence: string;
  /** The check that would settle it, where the part is not proven. */
  readonly nextCheck?: { readonly label: string; readonly minutes: number };
}

export interface Alternative {
  readonly name: string;
  readonly lines: readonly QuoteLine[];
  readonly net: Money;
  readonly tax: Money;
  /** What the smallest coin adds or takes: net, tax and rounding are the total. */
  readonly rounding: Money;
  readonly total: Money;
  /** What has no price: while there is one, the total is not the whole. */
  readonly missing: readonly string[];
}

export interface Quote {
  /** `repair` for a proven part; `further check` while it is only suspect; `none` where nothing is at fault. */
  readonly kind: "repair" | "further check" | "none";
  readonly reason: string;
  readonly alternatives: readonly Alternative[];
  readonly issues: readonly string[];
}

/**
 * Prices what a verdict calls for. A part that is not proven faulty is not sold: the check that would
 * settle it is quoted instead, with the reason.
 *
 * @param verdict - Part, state and sentence of the verdict
 * @param list - The shop's Prices sheet
 * @param terms - The shop's Terms sheet, and what is known of the job
 * @returns Alternatives side by side, the usual one first; money exact, rounded as the terms say
 */
export function quote(verdict: QuotedVerdict, list: PriceList, terms: Terms): Quote {
  const { issues } = list;
  const { part, state, faults = [] } = verdict;
  if (part === undefined || state === "serviceable") {
    const alternatives = terms.diagnosisMinutes.eq(0) ? [] : [testingOnly(terms)];
    return { kind: "none", reason: `No part is quoted: ${verdict.sentence}`, alternatives, issues };
  }
  if (state !== "faulty") {
    return {
      kind: "further check",
      reason: `The ${part} is ${state}, not proven, so it is not sold on this evidence: ${verdict.sentence}`,
      alternatives: [furtherCheck(verdict.nextCheck, terms)],
      issues,
    };
  }
  const alternatives = repairsOf(part, faults).flatMap((repair) => waysOf(repair, faults, list, terms));
  const open = faults.length === 0 && dependsOnFault(part);
  const reason = open ? `${verdict.sentence} ${FAULT_NOT_KNOWN}` : verdict.sentence;
  return { kind: "repair", reason, alternatives, issues };
}

const FAULT_NOT_KNOWN = "What is wrong with it is not given, so every way is listed.";

function testingOnly(terms: Terms): Alternative {
  const missing: string[] = [];
  return total("Testing only", testing(terms, missing), missing, terms);
}

function furtherCheck(next: QuotedVerdict["nextCheck"], terms: Terms): Alternative {
  const missing: string[] = [];
  const lines = testing(terms, missing);
  const name = next ? `Further check: ${next.label}` : "Further check";
  if (next) {
    const { minutes } = next;
    const time = { quantity: new Big(minutes), per: 60, note: `${minutes} min` };
    lines.push(...timeLine({ kind: "further check", description: name, ...time }, terms, missing));
  } else missing.push("further check: no check is known that would settle it, so its time is not known either");
  return total(name, lines, missing, terms);
}

/** Parts for other machines that are named where none fits. */
const MOST_OTHERS = 3;

function waysOf(repair: Repair, faults: readonly FaultId[], list: PriceList, terms: Terms): Alternative[] {
  const way = (name: string, part: PricedPart | undefined, missing: string[]) =>
    wayOf(name, repair, faults, part, list, terms, missing);
  if (repair.part === undefined) return [way(repair.name, undefined, [])];
  const number = wantedNumber(repair.part, terms);
  const chosen = onePerCondition(partsFor(list, repair.part, terms, number));
  if (chosen.length === 0) {
    const where = [number && `part number ${number}`, terms.machine && `fits ${terms.machine}`].filter(Boolean);
    const wanted = where.length > 0 ? ` (${where.join(" or ")})` : "";
    const others = list.parts.filter(({ use }) => use === repair.part).slice(0, MOST_OTHERS);
    return [
      way(repair.name, undefined, [
        `${repair.part}${wanted}: no row in the price list`,
        ...others.map(
          (part) =>
            `${part.partNumber}: listed for ${part.fits.join(", ")}; check the fit, then name its part number in the terms`,
        ),
      ]),
    ];
  }
  return chosen.map((part) => way(`${repair.name}, ${part.condition}`, part, []));
}

function wayOf(
  name: string,
  repair: Repair,
  faults: readonly FaultId[],
  part: PricedPart | undefined,
  list: PriceList,
  terms: Terms,
  missing: string[],
): Alternative {
  const lines: QuoteLine[] = part ? partLines(part, "part", 1, list, terms, missing) : [];
  for (const { use, quantity, needed, only } of repair.companions) {
    if (only && !only.some((id) => faults.includes(id))) continue;
    const found = partsFor(list, use, terms, "")[0];
    if (found) lines.push(...partLines(found, "material", quantity, list, terms, missing));
    else if (needed) missing.push(`${use}: no row in the price list`);
  }
  const own = terms.hours.get(plain(repair.operation));
  const mended = faultWords(faults.filter((id) => repair.mends?.includes(id) ?? true));
  const source = own ? "the shop's own hours" : "hours by common practice";
  const labour = timeLine(
    {
      kind: "labour",
      description: sentenceCase(repair.operation),
      quantity: own ?? new Big(repair.hours),
      note: [mended, source].filter(Boolean).join("; "),
    },
    terms,
    missing,
  );
  lines.push(...labour, ...testing(terms, missing), ...supplies(sum(labour.map((l) => l.net)), terms));
  return total(name, lines, missing, terms);
}

function total(name: string, lines: readonly QuoteLine[], missing: readonly string[], terms: Terms): Alternative {
  const net = sum(lines.map((l) => l.net));
  const tax = terms.taxOn === "line" ? sum(lines.map((l) => l.tax)) : taxOnTotals(lines, terms);
  const whole = roundToCoin(net.plus(tax), terms.money);
  const unknown = terms.unknown.map((label) => `${label}: no term of this name is known, so it was not used`);
  const open = [...missing, ...unknown];
  return { name, lines, net, tax, rounding: whole.minus(net.plus(tax)), total: whole, missing: open };
}

/** One rounding for each rate, over the sum of what it taxes. */
function taxOnTotals(lines: readonly QuoteLine[], terms: Terms): Money {
  return sum(
    (Object.keys(terms.tax) as TaxKind[]).map((kind) => {
      const taxed = sum(lines.filter((l) => TAXED[l.kind] === kind).map((l) => l.net));
      return roundMoney(taxed.times(terms.tax[kind]), terms.money);
    }),
  );
}
