import { isBlank, type Block, type Cell } from "../cell";
import { matchLabel } from "../readings/match";
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
    const count = row.filter(
      (cell) => typeof cell === "string" && !isBlank(cell) && matchLabel(cell) !== undefined,
    ).length;
    if (count > known) [best, known] = [i, count];
  });
  return best;
}

/** How a table writes the dates of its visits, told from the rows that are at hand. */
export function dateOrderOf(header: readonly Cell[], rows: Block): DateOrder | undefined {
  const column = header.findIndex((cell) => !isBlank(cell) && matchLabel(String(cell))?.entry.id === "visit-date");
  return column < 0 ? undefined : dateOrderAmong(rows.map((row) => row[column]));
}

/** A row that sums up others is not a machine. */
export function isTotalsRow(row: readonly Cell[]): boolean {
  const first = row.find((cell) => !isBlank(cell));
  return (
    typeof first === "string" &&
    /^(?:grand\s+|sub-?)?(?:totals?|sum|average|mean|count|media|promedio|suma|somme|moyenne|summe|gesamt|mittelwert|durchschnitt)(?:\s+(?:general|g[ée]n[ée]ral))?\s*:?$/iu.test(
      first.trim(),
    )
  );
}
