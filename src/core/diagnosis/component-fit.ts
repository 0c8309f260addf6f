import { FactorRows } from "./factor-rows";
import { KnownCoordinates, type Conditioned } from "./known-coordinates";
import type { Component } from "./mixture";
import { inverseRoot } from "./powers";
import { takeOut, whiten } from "./whitening";

/** Sets of known coordinates are kept up to this many numbers, 64 MB: a fleet with gaps has a few hundred. */
const KEPT_NUMBERS = 8_000_000;

/** How well every component of all mixtures fits the vector looked at last: many questions follow about one. */
export class ComponentFit {
  /** What depends on the vector's gaps alone; defined once a vector was looked at. */
  pattern!: KnownCoordinates;
  /** What its covariates say by themselves. */
  conditioned!: Conditioned;
  /** The known values, covariates first. */
  readonly values: Float64Array;
  /** Whitened distances of all known values, components side by side; of each component the sum of their squares. */
  readonly white: Float64Array;
  readonly squares: Float64Array;
  /** Joint density of the known values, weight included, a number a component. */
  readonly density: Float64Array;

  private readonly kept = new Map<number, KnownCoordinates>();
  private factors: FactorRows;

  /**
   * @param starts - First component of each mixture, and one past the last
   * @param covariates - How many coordinates, the first ones, are covariates
   * @param degrees - Degrees of freedom of the tails
   */
  constructor(
    private readonly components: readonly Component[],
    readonly starts: Int32Array,
    private readonly covariates: number,
    readonly degrees: number,
  ) {
    this.factors = new FactorRows(components);
    const count = components.length;
    const n = components[0]!.mean.length;
    this.values = new Float64Array(n);
    this.white = new Float64Array(count * n);
    this.squares = new Float64Array(count);
    this.density = new Float64Array(count);
  }

  /** @param x - One value a coordinate, NaN where not known */
  lookAt(x: Float64Array): void {
    const { values, white, squares, density, degrees } = this;
    const pattern = (this.pattern = this.patternOf(x));
    const { known, given, rows, jointFactors } = pattern;
    const n = known.length;
    const count = density.length;
    for (let i = 0; i < n; i++) values[i] = x[known[i]!]!;
    const before = (this.conditioned = pattern.conditionedOn(values, this.condition));
    white.set(before.white);
    squares.set(before.squares);
    for (let i = given; i < n; i++) whiten(white, squares, i, given, values[i]!, before.base, rows[i]!.lower, count);
    for (let c = 0; c < count; c++) density[c] = jointFactors[c]! * inverseRoot(1 + squares[c]! / degrees, degrees + n);
  }

  private readonly condition = (pattern: KnownCoordinates, { values, base, white, squares, density }: Conditioned) => {
    const { known, given, means, rows, givenFactors } = pattern;
    const { starts, degrees } = this;
    const count = squares.length;
    squares.fill(0);
    for (let k = 0; k < means.length; k++) base[k] = -means[k]!;
    for (let i = 0; i < given; i++) whiten(white, squares, i, 0, values[i]!, base, rows[i]!.lower, count);
    for (let i = given; i < known.length; i++) {
      const { lower } = rows[i]!;
      for (let j = 0; j < given; j++) takeOut(base, i * count, lower, white, j * count, count);
    }
    for (let m = 0; m < density.length; m++) {
      let sum = 0;
      for (let c = starts[m]!; c < starts[m + 1]!; c++)
        sum += givenFactors[c]! * inverseRoot(1 + squares[c]! / degrees, degrees + given);
      density[m] = sum;
    }
  };

  /** Tables of machines ask the same columns row after row: what depends on these alone is kept. */
  private patternOf(x: Float64Array): KnownCoordinates {
    let mask = 0;
    for (let i = 0; i < x.length; i++) if (!Number.isNaN(x[i]!)) mask += 2 ** i;
    let pattern = this.kept.get(mask);
    if (!pattern) {
      let numbers = 0;
      for (const { size } of this.kept.values()) numbers += size;
      // The sets that go leave no rows behind that nobody has any more.
      if (numbers > KEPT_NUMBERS) this.factors = new FactorRows(this.components);
      for (const [oldest, { size }] of this.kept) {
        if (numbers <= KEPT_NUMBERS) break;
        this.kept.delete(oldest);
        numbers -= size;
      }
      const { components, factors, starts, covariates, degrees } = this;
      pattern = new KnownCoordinates(components, factors, starts.length - 1, x, covariates, degrees);
      this.kept.set(mask, pattern);
    }
    return pattern;
  }
}
