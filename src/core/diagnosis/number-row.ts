/** Numbers of a piece that rows are cut from. */
const PIECE = 16_384;
let piece = new Float64Array(PIECE);
let used = 0;

/**
 * A row of zeros, cut from a piece that many rows share: a memory block of its own for each, outside the
 * engine's heap, took longer than the sums over it.
 *
 * @param length - At most a piece
 */
export function numberRow(length: number): Float64Array {
  if (used + length > PIECE) {
    piece = new Float64Array(PIECE);
    used = 0;
  }
  used += length;
  return piece.subarray(used - length, used).fill(0);
}

/**
 * Does some work whose rows of numbers are cut anew afterwards: in a browser, getting and clearing memory for each
 * of a hundred thousand machines took a quarter of the time.
 *
 * @param work - Its answer may hold none of the rows that were cut meanwhile, and nothing may keep one
 */
export function withPassingRows<T>(work: () => T): T {
  const [before, from] = [piece, used];
  try {
    return work();
  } finally {
    used = piece === before ? from : 0;
  }
}
