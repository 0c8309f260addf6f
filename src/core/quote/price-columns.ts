import type { Cell } from "../cell";
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

/** Where each column stands; of several that could be one, the one with the plainest name. */
export function columnsOf(header: readonly Cell[]): ReadonlyMap<Column, number> {
  const called = header.map((cell) =>
    inEnglishWords(
      plain(
        String(cell ?? "")
          .replace(/[([].*$|[.:*]/gu, "")
          .replaceAll("#", " number"),
      ),
    ),
  );
  const at = new Map<Column, number>();
  for (const [column, names] of Object.entries(COLUMNS)) {
    const name = names.find((known) => called.includes(known));
    if (name !== undefined) at.set(column as Column, called.indexOf(name));
  }
  return at;
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
