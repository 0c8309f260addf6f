import { textIn } from "../core/readings/catalogue";
import type { Job } from "../core/readings/types";
import { plainName, type ListKind, type ListRow, type ListSheet } from "./list-sheet";

/** The shop's list of parts that are known to be good: one row a part, with its number. */

const PART_NUMBER = "regulator-part-number";
const DIODE = /^(?:upper|lower)-(?:forward|reverse)-[abc]$/u;
const ENOUGH_COLUMNS = 4;

/** A part number and diode-check readings make the list; a page of machine data has no such readings. */
export const isKnownGoodList: ListKind = (ids) =>
  ids.has(PART_NUMBER) && [...ids].filter((id) => DIODE.test(id)).length >= ENOUGH_COLUMNS;

export function partNumberOf(job: Job): string {
  return textIn(job, PART_NUMBER) ?? "";
}

/** Rows of one number; without a number there are none. */
export function partsOfNumber(list: ListSheet | undefined, partNumber: string): readonly ListRow[] {
  const wanted = plainName(partNumber);
  return wanted === "" ? [] : (list?.rows ?? []).filter((row) => plainName(partNumberOf(row.job)) === wanted);
}
