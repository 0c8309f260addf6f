import type { AuditColumn } from "./template-schema";

/** How wide the columns that an audit answers in are [characters]. */
export const AUDIT_WIDTHS: Readonly<Record<AuditColumn, number>> = {
  Part: 19,
  State: 13,
  Chance: 9,
  "Next check": 28,
  "Days until flat": 10,
  Order: 8,
  Verdict: 62,
};

/** Number formats of those that hold numbers. */
export const AUDIT_NUMBERS: Readonly<Partial<Record<AuditColumn, string>>> = {
  Chance: "0%",
  "Days until flat": "0",
  Order: "0",
};
