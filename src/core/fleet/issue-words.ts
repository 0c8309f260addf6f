import type { CellIssue } from "../readings/from-cells";
import { faultMessage } from "../result";

/** What a row that sums up others is called where it is left out. */
export const TOTALS_ROW = "a totals row, left out";

/** What is said of a header or a cell that was not understood. */
export function issueWords({ kind, fault }: CellIssue): string {
  if (kind === "unknown label") return "a column that is not a reading; it was not used";
  if (kind === "doubled label") return "a second column of the same reading; it was not used";
  return faultMessage(fault!);
}
