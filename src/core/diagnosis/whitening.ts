/**
 * Takes the share of one whitened coordinate out of the distances of another, of all components.
 *
 * @param at - Where these distances begin in `distances`
 * @param lower - Row of the factor that the other has
 * @param column - Where the whitened coordinate begins, in `lower` and in `white`
 */
export function takeOut(
  distances: Float64Array,
  at: number,
  lower: Float64Array,
  white: Float64Array,
  column: number,
  count: number,
): void {
  for (let c = 0; c < count; c++) distances[at + c] = distances[at + c]! - lower[column + c]! * white[column + c]!;
}

/**
 * Brings the distances of one known coordinate, of all components, to unit spread, and adds their squares up. All
 * in one run over the components, four at a time: one at a time it took half as long again.
 *
 * @param i - Place of the coordinate among the known ones
 * @param from - First of those whose share in its distance is still to be taken out
 * @param base - What to add to the value for its distance
 */
export function whiten(
  white: Float64Array,
  squares: Float64Array,
  i: number,
  from: number,
  value: number,
  base: Float64Array,
  lower: Float64Array,
  count: number,
): void {
  const at = i * count;
  const first = from * count;
  let c = 0;
  for (; c + 3 < count; c += 4) {
    let w0 = value + base[at + c]!;
    let w1 = value + base[at + c + 1]!;
    let w2 = value + base[at + c + 2]!;
    let w3 = value + base[at + c + 3]!;
    let j = first + c;
    for (; j < at; j += count) {
      w0 -= lower[j]! * white[j]!;
      w1 -= lower[j + 1]! * white[j + 1]!;
      w2 -= lower[j + 2]! * white[j + 2]!;
      w3 -= lower[j + 3]! * white[j + 3]!;
    }
    white[at + c] = w0 *= lower[j]!;
    white[at + c + 1] = w1 *= lower[j + 1]!;
    white[at + c + 2] = w2 *= lower[j + 2]!;
    white[at + c + 3] = w3 *= lower[j + 3]!;
    squares[c] = squares[c]! + w0 * w0;
    squares[c + 1] = squares[c + 1]! + w1 * w1;
    squares[c + 2] = squares[c + 2]! + w2 * w2;
    squares[c + 3] = squares[c + 3]! + w3 * w3;
  }
  for (; c < count; c++) {
    let w = value + base[at + c]!;
    let j = first + c;
    for (; j < at; j += count) w -= lower[j]! * white[j]!;
    white[at + c] = w *= lower[j]!;
    squares[c] = squares[c]! + w * w;
  }
}
