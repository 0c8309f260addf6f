import { isCellError, type Cell } from "../core/cell";
import { ok, type Result } from "../core/result";
import { readOne, toBlock, type Argument } from "./arguments";
import { blockOrFault, faultCell, type CellAnswer } from "./over-cells";

/**
 * Carries a computation that takes a whole row of readings over the rows of a range: one battery's
 * six cells, or 50,000 batteries. A blank cell of a row arrives as `null`; a row of blanks gives
 * `blank`.
 *
 * @param cell - How each cell of the range is read
 * @param option - One more argument for all rows
 * @param compute - The computation on one row
 * @param given - The range and the option as the host hands them over
 * @param blank - What stands where a row is blank
 */
export function overRows<T, U>(
  cell: Argument<T>,
  option: Argument<U>,
  compute: (row: (T | null)[], option: U) => Result<readonly Cell[]>,
  given: readonly [unknown, unknown],
  blank: readonly Cell[],
): Cell[][] {
  const set = readOne(given[1], option);
  if (!set.ok) return [[faultCell(set.fault)]];
  const rows = toBlock(given[0]).map((row) =>
    sideways(
      answerOf(row, cell, (values) => compute(values, set.value as U), blank),
      blank.length,
    ),
  );
  return blockOrFault(ok(rows));
}

function answerOf<T>(
  row: readonly Cell[],
  argument: Argument<T>,
  compute: (values: (T | null)[]) => Result<readonly Cell[]>,
  blank: readonly Cell[],
): CellAnswer {
  const values: (T | null)[] = [];
  for (const cell of row) {
    if (isCellError(cell) && cell.error === "#N/A") return cell;
    const read = argument.read(cell);
    if (!read.ok) return faultCell(read.fault);
    values.push(read.value);
  }
  if (values.every((value) => value === null)) return blank;
  const result = compute(values);
  return result.ok ? result.value : faultCell(result.fault);
}

/** An error stands across the whole row. */
function sideways(answer: CellAnswer, width: number): readonly Cell[] {
  return (Array.isArray(answer) ? answer : Array.from({ length: width }, () => answer)) as readonly Cell[];
}
