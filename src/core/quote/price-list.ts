import Big from "big.js";
import { isBlank, isCellError, type Block, type Cell } from "../cell";
import { saysNothing } from "../readings/parse";
import { fail, ok, type Result } from "../result";
import { decimalOf, isForeign } from "./amount";
import type { Money } from "./money";
import { columnsLacking, columnsOf, moneyInstead, nameOf, type Column } from "./price-columns";
import { inEnglishWords, plain } from "./shop-words";

export { plain };

/** What a priced part is for; companions of a repair are found by it. */
export const USES = [
  "battery",
  "regulator-rectifier",
  "stator",
  "rotor",
  "connector",
  "terminal",
  "cable",
  "fuse",
  "grease",
  "gasket",
  "hardware",
] as const;
export type Use = (typeof USES)[number];

export const CONDITIONS = ["new", "rebuilt", "used"] as const;
export type Condition = (typeof CONDITIONS)[number];

/** One row of the shop's own Prices sheet. */
export interface PricedPart {
  readonly partNumber: string;
  readonly description: string;
  /** Absent where the row does not say: such a part is found by its number alone. */
  readonly use?: Use;
  readonly condition: Condition;
  /** Machines it fits; empty means any. */
  readonly fits: readonly string[];
  /** Selling price; absent where the row has neither a price nor cost with margin. */
  readonly price?: Money;
  /** Refundable charge until the old part comes back. */
  readonly coreCharge?: Money;
  /** Deposit that the law or the supplier asks for (batteries). */
  readonly deposit?: Money;
  readonly stock?: number;
  readonly leadDays?: number;
  readonly supersededBy?: string;
  /** Row in the list, header = 1. */
  readonly row: number;
}

export interface PriceList {
  readonly parts: readonly PricedPart[];
  /** What could not be used, in words with its row: nothing is dropped silently. */
  readonly issues: readonly string[];
}

/**
 * Reads the shop's Prices sheet: a header row, then a part a row, columns in any order.
 *
 * A price is the price column, or cost with margin of the selling price: price = cost / (1 − margin).
 *
 * @param block - Cells, header row first
 * @param currency - What the shop quotes in, an ISO 4217 code; amounts written in another are refused
 * @returns Parts and issues; `missing` where part number or price has no column, `not-understood` where its header
 *   says that the money is in another currency or has tax in it
 */
export function readPriceList(block: Block, currency?: string): Result<PriceList> {
  const at = columnsOf(block[0] ?? []);
  const lacking = columnsLacking(at);
  if (lacking.length > 0) {
    return fail({
      code: "missing",
      what: `prices: the column ${lacking.join(", ")}`,
      expected: "a header row with part number and price (or cost and margin)",
    });
  }
  for (const column of MONEY) {
    const came = String(block[0]![at.get(column) ?? -1] ?? "").trim();
    const expected = moneyInstead(came, currency);
    if (expected) return fail({ code: "not-understood", what: `prices, ${nameOf(column)}`, came, expected });
  }
  const parts: PricedPart[] = [];
  const issues: string[] = [];
  const inPercent = String(block[0]![at.get("margin") ?? -1]).includes("%");
  for (let r = 1; r < block.length; r++) {
    const row = block[r]!;
    if (row.every(isBlank)) continue;
    const cell = (column: Column): Cell => (at.has(column) ? row[at.get(column)!] : undefined);
    const part = readPart(cell, r + 1, issues, currency, inPercent);
    if (part) parts.push(part);
  }
  if (parts.length > 0 && parts.every(({ use }) => use === undefined)) issues.push(NO_USES);
  issues.push(...doublePrices(parts));
  return ok({ parts, issues });
}

const NO_USES =
  "No line says what its part is for: add a column Use (stator, battery, fuse), or name part numbers in the terms.";

const MONEY = ["price", "cost", "coreCharge", "deposit"] as const;

/** Where a row stands, counted as the eye counts it, wherever the list lies on its sheet. */
function line(row: number): string {
  return `Line ${row - 1} below the header`;
}

function readPart(
  cell: (column: Column) => Cell,
  row: number,
  issues: string[],
  currency: string | undefined,
  inPercent: boolean,
): PricedPart | undefined {
  const nothing = (typed: Cell) => isBlank(typed) || saysNothing(typed);
  const text = (column: Column) =>
    nothing(cell(column)) || isCellError(cell(column)) ? "" : String(cell(column)).trim();
  const amount = (column: Column, counted = false): Big | undefined => {
    const typed = cell(column);
    if (nothing(typed)) return undefined;
    const number = decimalOf(counted && typeof typed === "string" ? typed.replace(COUNTED, "") : typed);
    const shown = isCellError(typed) ? typed.error : String(typed);
    if (!number) issues.push(`${line(row)}, ${nameOf(column)}: "${shown}" is not an amount; enter it like 12.50.`);
    else if (!counted && currency !== undefined && isForeign(typed, currency))
      issues.push(
        `${line(row)}, ${nameOf(column)}: "${shown}" is not in ${currency}; enter it in that, or set the currency in the terms.`,
      );
    else if (number.lt(0)) issues.push(`${line(row)}, ${nameOf(column)}: ${shown} is below zero.`);
    else return number;
    return undefined;
  };
  const partNumber = text("partNumber");
  const use = text("use") === "" ? undefined : USES.find((u) => u === inEnglishWords(plain(text("use"))));
  if (partNumber === "") return void issues.push(`${line(row)}: no part number.`);
  if (!use && text("use") !== "") {
    // A supplier's groups are other words, the same on line after line; the part is found by its number.
    const none = `, use: "${text("use")}" is none of ${USES.join(", ")}.`;
    if (!issues.some((issue) => issue.endsWith(none))) issues.push(`${line(row)}${none}`);
  }
  const condition =
    text("condition") === "" ? "new" : CONDITIONS.find((c) => c === inEnglishWords(plain(text("condition"))));
  if (!condition)
    return void issues.push(`${line(row)}, condition: "${text("condition")}" is none of ${CONDITIONS.join(", ")}.`);
  const margin = amount("margin");
  const price = sellingPrice(
    amount("price"),
    amount("cost"),
    inPercent && margin?.gte(1) ? margin.div(100) : margin,
    row,
    issues,
  );
  const [core, deposit] = [amount("coreCharge"), amount("deposit")];
  const [stock, lead] = [amount("stock", true), amount("leadDays", true)];
  const superseded = text("supersededBy");
  return {
    partNumber,
    description: text("description") || partNumber,
    ...(use ? { use } : {}),
    condition,
    fits: text("fits")
      .split(/[,;/]/u)
      .map((m) => m.trim())
      .filter((m) => m !== "" && plain(m) !== "any" && m !== "*"),
    ...(price ? { price } : {}),
    ...(core ? { coreCharge: core } : {}),
    ...(deposit ? { deposit } : {}),
    ...(stock ? { stock: stock.toNumber() } : {}),
    ...(lead ? { leadDays: lead.toNumber() } : {}),
    ...(superseded ? { supersededBy: superseded } : {}),
    row,
  };
}

/** What people write behind a number of pieces or days. */
const COUNTED = /\s*(?:pcs?|pieces?|units?|ea|each|d|days?|uds?|d[ií]as?)\.?$/iu;

function sellingPrice(
  price: Big | undefined,
  cost: Big | undefined,
  margin: Big | undefined,
  row: number,
  issues: string[],
): Big | undefined {
  if (price) return price;
  if (!cost || !margin) return undefined;
  if (margin.lt(1)) return cost.div(new Big(1).minus(margin));
  issues.push(`${line(row)}, margin: ${margin.toFixed()} is not a share of the price; enter 0.35 or 35 %.`);
  return undefined;
}

/** The same part in the same condition with two prices: named, and neither is used. */
function doublePrices(parts: readonly PricedPart[]): string[] {
  const issues: string[] = [];
  const first = new Map<string, PricedPart>();
  for (const part of parts) {
    const key = priceKey(part);
    const before = first.get(key);
    if (!before) first.set(key, part);
    else if (!samePrice(before, part)) {
      issues.push(
        `Lines ${before.row - 1} and ${part.row - 1} below the header: ${part.partNumber} (${part.condition}) has two prices; keep one.`,
      );
    }
  }
  return issues;
}

/** True where another row of the list prices the same part differently. */
export function hasTwoPrices(list: PriceList, part: PricedPart): boolean {
  return list.parts.some((other) => priceKey(other) === priceKey(part) && !samePrice(other, part));
}

function priceKey(part: PricedPart): string {
  return `${plain(part.partNumber)}|${part.condition}`;
}

function samePrice(a: PricedPart, b: PricedPart): boolean {
  return a.price === b.price || (a.price !== undefined && b.price !== undefined && a.price.eq(b.price));
}

/** Follows `superseded by` to the part that is sold today; a loop or a gap ends at the last part found. */
export function current(list: PriceList, part: PricedPart): PricedPart {
  const seen = new Set<string>();
  let now = part;
  while (now.supersededBy !== undefined && !seen.has(plain(now.partNumber))) {
    seen.add(plain(now.partNumber));
    const next = list.parts.find(
      (p) => plain(p.partNumber) === plain(now.supersededBy!) && p.condition === part.condition,
    );
    if (!next) return now;
    now = next;
  }
  return now;
}
