import { isCellError, type Block, type Cell } from "./cell";

/**
 * Remembers the last answer of a reader of cells. The formulas of a sheet are handed the same machine
 * and the same readings one after another; they are read once for all of them.
 *
 * @param read - Gives the same for the same, whenever it is asked
 * @param same - When two questions are the same
 */
export function once<Q, A>(read: (asked: Q) => A, same: (one: Q, other: Q) => boolean): (asked: Q) => A {
  let last: { readonly asked: Q; readonly answer: A } | undefined;
  return (asked) => {
    if (!last || !same(last.asked, asked)) last = { asked, answer: read(asked) };
    return last.answer;
  };
}

/** True where two blocks hold the same cells; a blank is not a zero, and text is not the number it looks like. */
export function sameBlock(one: Block, other: Block): boolean {
  return one === other || (one.length === other.length && one.every((row, r) => sameRow(row, other[r]!)));
}

/** True where two rows hold the same cells. */
export function sameRow(one: readonly Cell[], other: readonly Cell[]): boolean {
  return one.length === other.length && one.every((cell, c) => sameCell(cell, other[c]));
}

function sameCell(one: Cell, other: Cell): boolean {
  if (isCellError(one) && isCellError(other)) return one.error === other.error && one.message === other.message;
  return Object.is(one, other);
}
