import { placeInTriangle, type Component } from "./mixture";

/**
 * One row of the Cholesky factors of all components' covariances: that of a known coordinate, those before it
 * known as well.
 */
export interface FactorRow {
  /** Its elements one after another, all components side by side in each; the last is the reciprocal diagonal. */
  readonly lower: Float64Array;
  /** Log of the product of the diagonals down to this one, a number a component. */
  readonly logRoots: Float64Array;
}

/** A row with those that were asked for behind it. */
interface Kept extends FactorRow {
  readonly coordinate: number;
  readonly next: Map<number, Kept>;
}

/** Sets of known coordinates that begin alike have their first rows in common: each row is worked out once. */
export class FactorRows {
  private readonly first = new Map<number, Kept>();

  constructor(private readonly components: readonly Component[]) {}

  /** @param known - Known coordinates in rising order; gives a row for each */
  of(known: readonly number[]): readonly FactorRow[] {
    const rows: Kept[] = [];
    let next = this.first;
    for (const coordinate of known) {
      let row = next.get(coordinate);
      if (!row) next.set(coordinate, (row = this.row(rows, coordinate)));
      rows.push(row);
      next = row.next;
    }
    return rows;
  }

  private row(before: readonly Kept[], coordinate: number): Kept {
    const count = this.components.length;
    const last = before.length * count;
    const lower = new Float64Array(last + count);
    const logRoots = new Float64Array(count);
    for (const { lower: other, coordinate: earlier } of before) {
      const at = this.leave(lower, coordinate, other, earlier);
      for (let k = at; k < at + count; k++) lower[k] = lower[k]! * other[k]!;
    }
    this.leave(lower, coordinate, lower, coordinate);
    const above = before.at(-1)?.logRoots;
    for (let c = 0; c < count; c++) {
      const root = Math.sqrt(Math.max(lower[last + c]!, 1e-9));
      lower[last + c] = 1 / root;
      logRoots[c] = (above ? above[c]! : 0) + Math.log(root);
    }
    return { coordinate, lower, logRoots, next: new Map() };
  }

  /** The covariance of two coordinates, less what the columns before hold of it; gives the place it is left at. */
  private leave(lower: Float64Array, coordinate: number, other: Float64Array, earlier: number): number {
    const count = this.components.length;
    const at = other.length - count;
    const place = placeInTriangle(coordinate, earlier);
    for (let c = 0; c < count; c++) lower[at + c] = this.components[c]!.covariance[place]!;
    for (let k = 0; k < at; k += count)
      for (let c = 0; c < count; c++) lower[at + c] = lower[at + c]! - lower[k + c]! * other[k + c]!;
    return at;
  }
}
