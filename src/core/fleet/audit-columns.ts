/** What stands beside a fleet's table. */
export const AUDIT_COLUMNS = ["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"] as const;

/** Place of each column. */
export const AUDIT_PLACE = Object.fromEntries(AUDIT_COLUMNS.map((name, i) => [name, i])) as Record<
  (typeof AUDIT_COLUMNS)[number],
  number
>;
