/** One printed row: x, y. */
export type Row = readonly [x: number, y: number];

/**
 * Reads a published table between its rows: straight lines, held at the first and the last row.
 *
 * @param rows - At least one row, x rising
 * @param x - Where to read; the caller has refused what lies too far outside
 */
export function readTable(rows: readonly Row[], x: number): number {
  const first = rows[0]!;
  const last = rows[rows.length - 1]!;
  if (x <= first[0]) return first[1];
  if (x >= last[0]) return last[1];
  const i = rows.findIndex(([at]) => at >= x);
  const [x0, y0] = rows[i - 1]!;
  const [x1, y1] = rows[i]!;
  // Twelve digits: a printed row reads as printed, whatever the arithmetic of its unit left behind.
  return Number((y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)).toPrecision(12));
}

/** The table read the other way; its y must rise as well. */
export function swapped(rows: readonly Row[]): readonly Row[] {
  return rows.map(([x, y]) => [y, x] as const);
}
