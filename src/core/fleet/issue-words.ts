import type { CellIssue } from "../readings/from-cells";
import { faultMessage } from "../result";
import type { LeftOut } from "./table-shape";

/** What is said of a row that is left out. */
export const LEFT_OUT: Readonly<Record<LeftOut, string>> = {
  "totals row": "a totals row, left out",
  "header row": "the header row again, left out",
};

/** What is said of a header or a cell that was not understood. */
export function issueWords({ kind, fault }: CellIssue): string {
  if (kind === "unknown label") return "a column that is not a reading; it was not used";
  if (kind === "doubled label") return "a second column of the same reading; it was not used";
  return faultMessage(fault!);
}
