import Big from "big.js";
import { ok, type Result } from "../result";
import type { PartState } from "../judgement/types";
import type { Part } from "../readings/types";
import { roundMoney, roundToCoin, sum, type Money } from "./money";
import { repairsOf, type Repair } from "./operations";
import { CONDITIONS, current, hasTwoPrices, plain, type PricedPart, type PriceList, type Use } from "./price-list";
import type { Terms } from "./terms";

/** What the counter quotes from: the verdict as it stands. */
export interface QuotedVerdict {
  /** Absent where no fault was found. */
  readonly part?: Part;
  readonly state: PartState;
  readonly sentence: string;
  /** The check that would settle it, where the part is not proven. */
  readonly nextCheck?: { readonly label: string; readonly minutes: number };
}

export type LineKind =
  "part" | "material" | "labour" | "testing" | "supplies" | "core charge" | "deposit" | "further check";

export interface QuoteLine {
  readonly kind: LineKind;
  readonly partNumber: string;
  readonly description: string;
  readonly quantity: Big;
  readonly unitPrice: Money;
  readonly net: Money;
  readonly tax: Money;
  readonly note: string;
}

export interface Alternative {
  readonly name: string;
  readonly lines: readonly QuoteLine[];
  readonly net: Money;
  readonly tax: Money;
  /** Net and tax, to the smallest coin. */
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

type TaxKind = keyof Terms["tax"];

/**
 * Prices what a verdict calls for. A part that is not proven faulty is not sold: the check that would
 * settle it is quoted instead, with the reason.
 *
 * @param verdict - Part, state and sentence of the verdict
 * @param list - The shop's Prices sheet
 * @param terms - The shop's Terms sheet
 * @returns Alternatives side by side, the usual one first; money exact, rounded as the terms say
 */
export function quote(verdict: QuotedVerdict, list: PriceList, terms: Terms): Result<Quote> {
  const issues = [...list.issues];
  if (verdict.part === undefined || verdict.state === "serviceable") {
    const lines = testing(terms);
    return ok({
      kind: "none",
      reason: `No part is quoted: ${verdict.sentence}`,
      alternatives: lines.length > 0 ? [total("Testing only", lines, [], terms)] : [],
      issues,
    });
  }
  if (verdict.state !== "faulty") {
    const minutes = verdict.nextCheck?.minutes ?? 30;
    const label = verdict.nextCheck?.label ?? "Further checks";
    const check = line(
      "further check",
      "",
      `Further check: ${label}`,
      new Big(minutes),
      terms.diagnosisRate,
      "labour",
      terms,
      `${minutes} min`,
      60,
    );
    return ok({
      kind: "further check",
      reason: `The ${verdict.part} is ${verdict.state}, not proven, so it is not sold on this evidence: ${verdict.sentence}`,
      alternatives: [total(`Further check: ${label}`, [...testing(terms), check], [], terms)],
      issues,
    });
  }
  const alternatives = repairsOf(verdict.part).flatMap((repair) => alternativesOf(repair, list, terms));
  return ok({ kind: "repair", reason: verdict.sentence, alternatives, issues });
}

function alternativesOf(repair: Repair, list: PriceList, terms: Terms): Alternative[] {
  if (repair.part === undefined) return [alternative(repair.name, repair, undefined, list, terms, [])];
  const fitting = find(list, repair.part, terms);
  const chosen = CONDITIONS.flatMap((condition) => fitting.filter((part) => part.condition === condition).slice(0, 1));
  if (chosen.length === 0) {
    const where = [terms.partNumber && `part number ${terms.partNumber}`, terms.machine && `fits ${terms.machine}`]
      .filter(Boolean)
      .join(" or ");
    return [
      alternative(repair.name, repair, undefined, list, terms, [
        `${repair.part}${where ? ` (${where})` : ""}: no row in the price list`,
      ]),
    ];
  }
  return chosen.map((part) => alternative(`${repair.name}, ${part.condition}`, repair, part, list, terms, []));
}

/** Parts of one use: by the part number on the machine first, then by what fits it, then what fits any. */
function find(list: PriceList, use: Use, terms: Terms): PricedPart[] {
  const ofUse = list.parts.filter((part) => part.use === use);
  const byNumber =
    terms.partNumber === "" ? [] : ofUse.filter((part) => plain(part.partNumber) === plain(terms.partNumber));
  const byFit =
    terms.machine === ""
      ? []
      : ofUse.filter((part) => part.fits.some((machine) => plain(machine) === plain(terms.machine)));
  const any = ofUse.filter((part) => part.fits.length === 0);
  const found = [...new Set([...byNumber, ...byFit, ...any].map((part) => current(list, part)))];
  return found.filter((part) => part.supersededBy === undefined || found.length === 1);
}

function alternative(
  name: string,
  repair: Repair,
  part: PricedPart | undefined,
  list: PriceList,
  terms: Terms,
  missing: string[],
): Alternative {
  const lines: QuoteLine[] = [];
  if (part) lines.push(...partLines(part, "part", 1, list, terms, missing));
  for (const companion of repair.companions) {
    const found = find(list, companion.use, { ...terms, partNumber: "" })[0];
    if (found) lines.push(...partLines(found, "material", companion.quantity, list, terms, missing));
    else if (companion.needed) missing.push(`${companion.use}: no row in the price list`);
  }
  const hours = terms.hours.get(plain(repair.operation)) ?? new Big(repair.hours);
  const origin = terms.hours.has(plain(repair.operation)) ? "the shop's own hours" : "hours by common practice";
  const labour = line("labour", "", sentence(repair.operation), hours, terms.labourRate, "labour", terms, origin);
  lines.push(labour, ...testing(terms), ...supplies(labour.net, terms));
  if (terms.labourRate.eq(0) && terms.warranty === "") missing.push("labour rate: not set in the terms");
  return total(name, lines, missing, terms);
}

function partLines(
  part: PricedPart,
  kind: "part" | "material",
  quantity: number,
  list: PriceList,
  terms: Terms,
  missing: string[],
): QuoteLine[] {
  if (hasTwoPrices(list, part)) missing.push(`${part.partNumber}: two prices in the list`);
  else if (!part.price) missing.push(`${part.partNumber}: no price in the list`);
  const price = hasTwoPrices(list, part) ? undefined : part.price;
  if (!price) return [];
  const supply =
    part.stock !== undefined && part.stock >= quantity
      ? "in stock"
      : part.leadDays === undefined
        ? ""
        : `${part.leadDays} days to come`;
  const lines = [line(kind, part.partNumber, part.description, new Big(quantity), price, "parts", terms, supply)];
  if (part.coreCharge?.gt(0))
    lines.push(
      line(
        "core charge",
        part.partNumber,
        "Core charge, back with the old part",
        new Big(quantity),
        part.coreCharge,
        "charges",
        terms,
        "",
      ),
    );
  if (part.deposit?.gt(0))
    lines.push(
      line(
        "deposit",
        part.partNumber,
        "Battery deposit, back with the old battery",
        new Big(quantity),
        part.deposit,
        "charges",
        terms,
        "",
      ),
    );
  return lines;
}

function testing(terms: Terms): QuoteLine[] {
  if (terms.diagnosisMinutes.eq(0)) return [];
  return [
    line(
      "testing",
      "",
      "Testing done",
      terms.diagnosisMinutes,
      terms.diagnosisRate,
      "labour",
      terms,
      `${terms.diagnosisMinutes.toFixed()} min`,
      60,
    ),
  ];
}

function supplies(labour: Money, terms: Terms): QuoteLine[] {
  if (terms.suppliesShare.eq(0)) return [];
  const uncapped = labour.times(terms.suppliesShare);
  const amount = terms.suppliesCap && uncapped.gt(terms.suppliesCap) ? terms.suppliesCap : uncapped;
  return [line("supplies", "", "Shop supplies", new Big(1), amount, "parts", terms, "")];
}

const TAXED: Readonly<Record<LineKind, TaxKind>> = {
  part: "parts",
  material: "parts",
  supplies: "parts",
  labour: "labour",
  testing: "labour",
  "further check": "labour",
  "core charge": "charges",
  deposit: "charges",
};

/**
 * Net is rounded on every line, so that the printed lines add up to the printed total. Minutes at an
 * hourly price come as `per` = 60 and are divided last: a third of an hour has no exact decimal.
 */
function line(
  kind: LineKind,
  partNumber: string,
  description: string,
  quantity: Big,
  unitPrice: Money,
  taxKind: TaxKind,
  terms: Terms,
  note: string,
  per = 1,
): QuoteLine {
  const free = terms.warranty !== "" && kind !== "core charge" && kind !== "deposit";
  const unit = free ? new Big(0) : roundMoney(unitPrice, terms.money);
  const net = roundMoney(unit.times(quantity).div(per), terms.money);
  return {
    kind,
    partNumber,
    description,
    quantity: quantity.div(per).round(4),
    unitPrice: unit,
    net,
    tax: terms.taxOn === "line" ? roundMoney(net.times(terms.tax[taxKind]), terms.money) : new Big(0),
    note: free ? `Warranty: ${terms.warranty}` : note,
  };
}

function total(name: string, lines: readonly QuoteLine[], missing: readonly string[], terms: Terms): Alternative {
  const net = sum(lines.map((l) => l.net));
  const tax =
    terms.taxOn === "line"
      ? sum(lines.map((l) => l.tax))
      : // One rounding for each rate, over the sum of what it taxes.
        sum(
          (Object.keys(terms.tax) as TaxKind[]).map((kind) =>
            roundMoney(
              sum(lines.filter((l) => TAXED[l.kind] === kind).map((l) => l.net)).times(terms.tax[kind]),
              terms.money,
            ),
          ),
        );
  return { name, lines, net, tax, total: roundToCoin(net.plus(tax), terms.money), missing };
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** True where the verdict is no longer the one that was quoted. */
export function isOutdated(
  quoted: Pick<QuotedVerdict, "part" | "state">,
  now: Pick<QuotedVerdict, "part" | "state">,
): boolean {
  return quoted.part !== now.part || quoted.state !== now.state;
}
