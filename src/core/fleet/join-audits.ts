import { isBlank, isCellError, type Cell } from "../cell";
import { AUDIT_COLUMNS } from "./audit-cells";
import { riskOrder } from "./risk-order";

/**
 * The cells of a table's audit from those of its parts, each audited with `names`: everything but the order
 * of risk is a row's own.
 *
 * @param named - Whether the whole was asked for with names too: then there is no header row
 */
export function joinAudits(parts: readonly (readonly Cell[][])[], named: boolean): Cell[][] {
  const failed = parts.find((rows) => rows.some(([first]) => isCellError(first)));
  if (failed) return [...failed];
  const rows = parts.flat();
  const audited = rows.filter((row) => !row.every(isBlank));
  const order = riskOrder(
    audited.map((row) => ({
      part: String(row[PLACE.Part]),
      state: String(row[PLACE.State]),
      chance: numberOrNone(row[PLACE.Chance]),
      days: numberOrNone(row[PLACE["Days until flat"]]),
    })),
  );
  audited.forEach((row, i) => (row[PLACE.Order] = order[i]!));
  return named ? rows : [[...AUDIT_COLUMNS], ...rows];
}

const PLACE = Object.fromEntries(AUDIT_COLUMNS.map((name, i) => [name, i])) as Record<
  (typeof AUDIT_COLUMNS)[number],
  number
>;

function numberOrNone(cell: Cell): number | undefined {
  return typeof cell === "number" ? cell : undefined;
}
