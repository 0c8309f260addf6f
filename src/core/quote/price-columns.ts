import type { Cell } from "../cell";
import { isForeign } from "./amount";
import { inEnglishWords, plain } from "./shop-words";

/** Columns of a price list, each by its own name and what else shops and suppliers call it. */
const COLUMNS = {
  partNumber: ["part number", "part no", "part", "number", "sku", "p/n", "pn", "part num", "item number", "item no"],
  description: ["description", "name", "item", "desc", "part name"],
  use: ["use", "kind", "used for", "group"],
  condition: ["condition", "state"],
  fits: ["fits", "machine", "machines", "fit", "fitment", "model", "models", "application"],
  cost: ["cost", "buying price", "net cost", "our cost", "unit cost", "dealer cost"],
  price: ["price", "selling price", "list price", "sell", "list", "retail", "retail price", "sale price", "sell price"],
  margin: ["margin"],
  coreCharge: ["core charge", "core", "core deposit"],
  deposit: ["deposit", "battery deposit"],
  stock: ["stock", "on hand", "in stock", "qty on hand", "quantity on hand", "qty in stock", "stock qty"],
  leadDays: ["lead days", "lead time", "days", "lead time days", "delivery days"],
  supersededBy: ["superseded by", "superseded", "replaced by", "superseded to"],
} as const;
export type Column = keyof typeof COLUMNS;

/** What a column is called in sentences. */
export function nameOf(column: Column): string {
  return COLUMNS[column][0];
}

/** Where each column stands; of several that could be one, the one with the plainest name, and one without tax in it. */
export function columnsOf(header: readonly Cell[]): ReadonlyMap<Column, number> {
  const texts = header.map((cell) => String(cell ?? ""));
  const at = new Map<Column, number>();
  for (const called of [texts.map((text) => (TAX_IN.test(text) ? "" : calledIn(text))), texts.map(calledIn)])
    for (const [column, names] of Object.entries(COLUMNS)) {
      const name = at.has(column as Column) ? undefined : names.find((known) => called.includes(known));
      if (name !== undefined) at.set(column as Column, called.indexOf(name));
    }
  return at;
}

/** A header without what stands behind its name: brackets, a currency, whether tax is in it. */
function calledIn(text: string): string {
  return inEnglishWords(plain(text.replace(BEHIND, "").replaceAll("#", " number")));
}

const CODE = /\b(?:USD|EUR|GBP|CAD|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY|CNY|INR|MXN|BRL|ARS|CLP|COP)\b|\p{Sc}/u;
const BEHIND = new RegExp(
  `[([].*$|[.:*]|\\s+(?:${CODE.source}|(?:[Ii]ncl?|[Ee]xc?l?|[Ww]ith(?:out)?|sin|con|net)\\b).*$`,
  "gu",
);
const TAX_IN = /\b(?:incl?|with|con)\b[\s.]*(?:sales )?(?:tax|vat|gst|iva)|\b(?:tax|vat|gst|iva)[\s-]inc/iu;

/**
 * What stands in the way of the money in a column: it is in another currency by its header, or has tax in it, which
 * would be asked for twice.
 *
 * @param currency - What the shop quotes in, where it is known
 * @returns What to enter instead; `undefined` where nothing does
 */
export function moneyInstead(header: string, currency = ""): string | undefined {
  if (TAX_IN.test(header)) return "amounts without tax";
  const written = CODE.exec(header)?.[0] ?? "";
  return currency !== "" && isForeign(written, currency)
    ? `amounts in ${currency}, or set the currency in the terms`
    : undefined;
}

/** What no list of prices can do without. */
export function columnsLacking(at: ReadonlyMap<Column, number>): readonly string[] {
  const lacking = at.has("partNumber") ? [] : [nameOf("partNumber")];
  return at.has("price") || at.has("cost") ? lacking : [...lacking, nameOf("price")];
}

/** True where a row of cells is the header row of a price list: other lists have part numbers and costs too. */
export function isPriceHeader(row: readonly Cell[]): boolean {
  const at = columnsOf(row);
  return columnsLacking(at).length === 0 && (at.has("use") || at.has("description"));
}
