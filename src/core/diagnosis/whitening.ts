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
 * in one run over the components: with each step in a run of its own an audit took a twentieth longer.
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
  for (let c = 0; c < count; c++) {
    let w = value + base[at + c]!;
    let j = from * count + c;
    for (; j < at; j += count) w -= lower[j]! * white[j]!;
    w *= lower[j]!;
    white[at + c] = w;
    squares[c] = squares[c]! + w * w;
  }
}
