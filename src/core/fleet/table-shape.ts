import { isBlank, type Block, type Cell } from "../cell";
import { matchLabel } from "../readings/match";
import { isUnitWordFor, unitAlone } from "../readings/units";
import { dateOrderAmong, type DateOrder } from "./dates";

/** Rows above the header that a sheet may open with: a title, a date, a blank. */
const SEARCHED = 12;

/**
 * The row that holds the headers: the one of the first dozen in which most labels are known.
 *
 * @returns Place in the block, from 0; `undefined` where no row has a known label
 */
export function headerRowOf(rows: Block): number | undefined {
  let best: number | undefined;
  let known = 0;
  rows.slice(0, SEARCHED).forEach((row, i) => {
    const count = knownIn(row);
    if (count > known) [best, known] = [i, count];
  });
  return best;
}

/** The headers of a table, and the row that its machines stand below. */
export interface TableHeader {
  readonly row: number;
  readonly header: readonly Cell[];
}

/**
 * The same with the names of groups that stand over their headers, as in merged cells: below `Charging` over two
 * columns `Idle` is the charging voltage at idle. A name with nothing below it stands for itself.
 *
 * @returns `undefined` where no row has a known label
 */
export function headerOf(rows: Block): TableHeader | undefined {
  const single = headerRowOf(rows);
  if (single === undefined) return undefined;
  let best: TableHeader = { row: single, header: rows[single]! };
  for (const over of [single - 1, single]) {
    const grouped = underGroups(rows[over] ?? [], rows[over + 1] ?? []);
    if (grouped && knownIn(grouped) > knownIn(best.header)) best = { row: over + 1, header: grouped };
  }
  return best;
}

function knownIn(row: readonly Cell[]): number {
  return row.filter((cell) => typeof cell === "string" && !isBlank(cell) && matchLabel(cell) !== undefined).length;
}

/** @returns `undefined` where the upper row groups nothing, or the lower one holds more than names */
function underGroups(over: readonly Cell[], below: readonly Cell[]): readonly Cell[] | undefined {
  if (![...over, ...below].every((cell) => isBlank(cell) || typeof cell === "string")) return undefined;
  let group = "";
  let spanned = false;
  const whole = Array.from({ length: Math.max(over.length, below.length) }, (_, i) => {
    const [own, name] = [textOf(over[i]), textOf(below[i])];
    spanned ||= own === "" && name !== "" && group !== "";
    if (own !== "") group = own;
    if (name === "") return own;
    const meanings = [`${group} ${name}`, `${group} voltage ${name}`, name];
    return meanings.find((text) => matchLabel(text) !== undefined) ?? `${group} ${name}`.trim();
  });
  return spanned ? whole : undefined;
}

function textOf(cell: Cell): string {
  return isBlank(cell) ? "" : String(cell).trim();
}

/** How a table writes the dates of its visits, told from the rows that are at hand. */
export function dateOrderOf(header: readonly Cell[], rows: Block): DateOrder | undefined {
  const column = header.findIndex((cell) => !isBlank(cell) && matchLabel(String(cell))?.entry.id === "visit-date");
  return column < 0 ? undefined : dateOrderAmong(rows.map((row) => row[column]));
}

/**
 * Headers with the units that stand in the row below them, where that row holds nothing else: bare numbers
 * under them are in these units. A header's own unit goes before.
 *
 * @returns `undefined` where the row is none of units
 */
export function withUnitsBelow(header: readonly Cell[], row: readonly Cell[] = []): readonly Cell[] | undefined {
  let units = 0;
  const whole = header.map((cell, i) => {
    const below = row[i];
    if (isBlank(below) || isBlank(cell)) return cell;
    const match = matchLabel(String(cell));
    if (!match) return cell;
    const { entry, unit } = match;
    const word = unitAlone(String(below));
    if (/^[-–—]+$/u.test(word)) return cell;
    units += entry.kind === "quantity" && isUnitWordFor(word, entry.unit) ? 1 : Number.NaN;
    return unit === undefined ? `${String(cell).trim()} (${word})` : cell;
  });
  return units > 0 ? whole : undefined;
}

const TOTALS =
  /^(?:grand\s+)?(?:totals?|sum|average|mean|count|media|promedio|suma|somme|moyenne|summe|gesamt|mittelwert|durchschnitt)(?:\s+(?:general|g[ée]n[ée]ral))?\s*(?:[:(=].*)?$/isu;
/** Of what follows: no machine is called so, whatever group comes behind. */
const SUBTOTALS = /^(?:sub-?totals?|sous-total|zwischensumme)(?![\p{L}\p{N}])/iu;

/** A row that sums up others is not a machine. */
export function isTotalsRow(row: readonly Cell[]): boolean {
  const first = row.find((cell) => !isBlank(cell));
  if (typeof first !== "string") return false;
  const label = first.trim();
  return TOTALS.test(label) || SUBTOTALS.test(label);
}

/** Kinds of rows that stand among the machines of a table and are none. */
export type LeftOut = "totals row" | "header row";

/** What a row is left out as; `undefined` where it is a machine's. Printed lists have their headers again on every page. */
export function leftOutAs(row: readonly Cell[], header: readonly Cell[]): LeftOut | undefined {
  if (isTotalsRow(row)) return "totals row";
  let again = 0;
  for (const [i, cell] of row.entries()) {
    if (isBlank(cell)) continue;
    // Units that stood below a header are behind it in brackets.
    if (typeof cell !== "string" || !`${String(header[i] ?? "").trim()} (`.startsWith(`${cell.trim()} (`))
      return undefined;
    again += 1;
  }
  return again > 1 ? "header row" : undefined;
}
