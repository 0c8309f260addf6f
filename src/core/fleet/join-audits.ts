import { isBlank, type Block, type Cell } from "../cell";
import { AUDIT_COLUMNS, AUDIT_PLACE } from "./audit-columns";
import { rememberAudit, type AuditBasis } from "./audits-lately";
import type { NamedTable } from "./named-table";
import { riskOrder } from "./risk-order";

/**
 * A table's audit from those of its parts, which is remembered for the next of the same table: everything but
 * the order of risk is a row's own.
 *
 * @param parts - Rows beside the table, blank beside a blank one; what stands in the order's column is not read
 * @returns As the table came: under a header row, or rows alone
 */
export function joinAudits(table: NamedTable, basis: AuditBasis, parts: readonly Block[]): Cell[][] {
  const rows = parts.flat();
  rememberAudit(table, basis, rows);
  const ordered = inRiskOrder(rows);
  return table.named ? ordered : [[...AUDIT_COLUMNS], ...ordered];
}

/** The same rows with their place in the order of risk; those that were given stay as they are. */
function inRiskOrder(given: Block): Cell[][] {
  const rows = given.map((row) => row.slice());
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
