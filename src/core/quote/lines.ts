import Big from "big.js";
import { fitWarning } from "./find-part";
import { roundMoney, roundQuantity, type Money } from "./money";
import { hasTwoPrices, type PricedPart, type PriceList } from "./price-list";
import type { Terms } from "./terms";

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

export type TaxKind = keyof Terms["tax"];
export const TAXED: Readonly<Record<LineKind, TaxKind>> = {
  part: "parts",
  material: "parts",
  supplies: "parts",
  labour: "labour",
  testing: "labour",
  "further check": "labour",
  "core charge": "charges",
  deposit: "charges",
};

/** What a line is made of, before it is priced. */
interface LineDraft {
  readonly kind: LineKind;
  readonly partNumber?: string;
  readonly description: string;
  readonly quantity: Big;
  readonly unitPrice: Money;
  readonly note?: string;
  /** Quantities that come in smaller pieces than the price: 60 for minutes at an hourly price. */
  readonly per?: number;
}

/**
 * Net is rounded on every line, so that the printed lines add up to the printed total, and is the printed
 * quantity times the printed price: minutes at an hourly price come as `per` = 60 and are billed in
 * hundredths of an hour. Under warranty every line is at zero and says why.
 */
export function line(draft: LineDraft, terms: Terms): QuoteLine {
  const { kind, partNumber = "", description, quantity, unitPrice, note = "", per = 1 } = draft;
  const free = terms.warranty !== "";
  const unit = free ? new Big(0) : roundMoney(unitPrice, terms.money);
  const billed = roundQuantity(quantity.div(per), terms.money);
  const net = roundMoney(unit.times(billed), terms.money);
  return {
    kind,
    partNumber,
    description,
    quantity: billed,
    unitPrice: unit,
    net,
    tax: terms.taxOn === "line" ? roundMoney(net.times(terms.tax[TAXED[kind]]), terms.money) : new Big(0),
    note: free ? `Warranty: ${terms.warranty}` : note,
  };
}

/** A part with its charges; where it has no price to go by, nothing is sold and `missing` says why. */
export function partLines(
  part: PricedPart,
  kind: "part" | "material",
  quantity: number,
  list: PriceList,
  terms: Terms,
  missing: string[],
): QuoteLine[] {
  // What is sold as a part has a price; grease may come free.
  const gap = kind === "part" && part.price?.eq(0) ? NO_PRICE : priceGap(part, list);
  // Warranty work is at zero whatever the part costs.
  if (gap !== "" && terms.warranty === "") {
    missing.push(`${part.partNumber}: ${gap}`);
    return [];
  }
  const { partNumber } = part;
  const count = new Big(quantity);
  const note = [supplyOf(part, quantity), fitWarning(part, terms.machine)].filter(Boolean).join("; ");
  const unitPrice = part.price ?? new Big(0);
  const lines = [line({ kind, partNumber, description: part.description, quantity: count, unitPrice, note }, terms)];
  const charge = (of: "core charge" | "deposit", description: string, amount: Money | undefined) => {
    if (amount?.gt(0)) {
      lines.push(line({ kind: of, partNumber, description, quantity: count, unitPrice: amount }, terms));
    }
  };
  charge("core charge", "Core charge, back with the old part", part.coreCharge);
  charge("deposit", "Battery deposit, back with the old battery", part.deposit);
  return lines;
}

function priceGap(part: PricedPart, list: PriceList): string {
  if (part.supersededBy !== undefined) return `superseded by ${part.supersededBy}, which the list does not sell`;
  if (hasTwoPrices(list, part)) return "two prices in the list";
  return part.price ? "" : NO_PRICE;
}

const NO_PRICE = "no price in the list";

function supplyOf({ stock, leadDays }: PricedPart, quantity: number): string {
  if (stock !== undefined && stock >= quantity) return "in stock";
  const have = stock === undefined ? "" : `${stock} in stock`;
  return [have, leadDays === undefined ? "" : `${leadDays} days to come`].filter(Boolean).join(", ");
}

/** Time at a rate of the shop's; without the rate nothing is charged and `missing` says so. */
export function timeLine(draft: Omit<LineDraft, "unitPrice">, terms: Terms, missing: string[]): QuoteLine[] {
  const [rate, name] =
    draft.kind === "labour" ? [terms.labourRate, "labour rate"] : [terms.diagnosisRate, "labour or diagnosis rate"];
  if (!rate && terms.warranty === "") {
    const gap = `${name}: not set in the terms`;
    if (!missing.includes(gap)) missing.push(gap);
    return [];
  }
  return [line({ ...draft, unitPrice: rate ?? new Big(0) }, terms)];
}

/** Testing already done. */
export function testing(terms: Terms, missing: string[]): QuoteLine[] {
  const minutes = terms.diagnosisMinutes;
  if (minutes.eq(0)) return [];
  const note = `${minutes.toFixed()} min`;
  return timeLine({ kind: "testing", description: "Testing done", quantity: minutes, per: 60, note }, terms, missing);
}

/** Shop supplies: a share of the labour, up to the most that the shop asks. */
export function supplies(labour: Money, terms: Terms): QuoteLine[] {
  if (terms.suppliesShare.eq(0)) return [];
  const uncapped = labour.times(terms.suppliesShare);
  const amount = terms.suppliesCap && uncapped.gt(terms.suppliesCap) ? terms.suppliesCap : uncapped;
  return [line({ kind: "supplies", description: "Shop supplies", quantity: new Big(1), unitPrice: amount }, terms)];
}
