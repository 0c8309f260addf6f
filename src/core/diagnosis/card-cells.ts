import type { Cell } from "../cell";
import { andThen, ok, type Result } from "../result";
import { verdictCells, type Given } from "./to-cells";

/** One cell: the verdict as a sentence, for hosts that have no cards to open. */
export function cardCells(given: Given): Result<readonly (readonly Cell[])[]> {
  return andThen(verdictCells(given), ([row]) => ok([[row?.at(-1) ?? ""]]));
}
