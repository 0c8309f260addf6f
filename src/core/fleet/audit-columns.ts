import type { Cell } from "../cell";

/** What stands beside a fleet's table. */
export const AUDIT_COLUMNS = ["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"] as const;

/** Place of each column. */
export const AUDIT_PLACE = Object.fromEntries(AUDIT_COLUMNS.map((name, i) => [name, i])) as Record<
  (typeof AUDIT_COLUMNS)[number],
  number
>;

/** @param named - Whether the table came as rows alone: then the result is rows alone too */
export function underHeader(rows: Cell[][], named: boolean): Cell[][] {
  return named ? rows : [[...AUDIT_COLUMNS], ...rows];
}
