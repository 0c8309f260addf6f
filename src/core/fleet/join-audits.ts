import { isBlank, type Block, type Cell } from "../cell";
import { AUDIT_PLACE } from "./audit-columns";
import { riskOrder } from "./risk-order";

/**
 * The rows of a table's audit from those of its parts: everything but the order of risk is a row's own.
 *
 * @param parts - Rows beside the table, blank beside a blank one; what stands in the order's column is not read
 */
export function joinAudits(parts: readonly Block[]): Cell[][] {
  const rows = parts.flat().map((row) => row.slice());
  const audited = rows.filter((row) => !row.every(isBlank));
  const order = riskOrder(
    audited.map((row) => ({
      part: String(row[AUDIT_PLACE.Part]),
      state: String(row[AUDIT_PLACE.State]),
      chance: numberOrNone(row[AUDIT_PLACE.Chance]),
      days: numberOrNone(row[AUDIT_PLACE["Days until flat"]]),
    })),
  );
  audited.forEach((row, i) => (row[AUDIT_PLACE.Order] = order[i]!));
  return rows;
}

function numberOrNone(cell: Cell): number | undefined {
  return typeof cell === "number" ? cell : undefined;
}
