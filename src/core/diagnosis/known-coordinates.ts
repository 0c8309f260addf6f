import type { FactorRow, FactorRows } from "./factor-rows";
import { placeInTriangle, type Component } from "./mixture";
import { logGamma } from "./powers";

/** So many types of machine are kept with each set of known coordinates. */
const KEPT_TYPES = 16;

/** What the covariates of one type of machine say by themselves, components side by side. */
export interface Conditioned {
  /** The known covariates. */
  readonly values: Float64Array;
  /** What to add to each known value for its distance. */
  readonly base: Float64Array;
  /** Whitened distances of the covariates, and their squares. */
  readonly white: Float64Array;
  readonly squares: Float64Array;
  /** Density of the covariates, one number a mixture. */
  readonly density: Float64Array;
}

/**
 * Everything about one set of known coordinates that does not depend on their values, for all
 * components at once. Numbers of all components lie side by side, so that each step of an
 * elimination is one run over them.
 */
export class KnownCoordinates {
  /** Known coordinates in rising order, covariates first. */
  readonly known: readonly number[];
  /** How many of `known` are covariates. */
  readonly given: number;
  /** Means of the known coordinates, a row a coordinate. */
  readonly means: Float64Array;
  /** Cholesky factor of their covariance. */
  readonly rows: readonly FactorRow[];
  /** Log of weight and of the density's constant: of all known coordinates, and of the covariates alone. */
  readonly jointLogs: Float64Array;
  readonly givenLogs: Float64Array;
  readonly jointFactors: Float64Array;
  readonly givenFactors: Float64Array;
  private readonly slopes: (Slopes | undefined)[] = [];
  /** The latest first. */
  private readonly types: Conditioned[] = [];

  constructor(
    private readonly components: readonly Component[],
    factors: FactorRows,
    private readonly mixtures: number,
    x: Float64Array,
    covariates: number,
    degrees: number,
  ) {
    const known = (this.known = Array.from(x.keys()).filter((i) => !Number.isNaN(x[i]!)));
    const given = (this.given = known.filter((i) => i < covariates).length);
    const count = components.length;
    this.means = new Float64Array(known.length * count);
    known.forEach((k, i) => {
      for (let c = 0; c < count; c++) this.means[i * count + c] = components[c]!.mean[k]!;
    });
    this.rows = factors.of(known);
    this.jointLogs = logFactors(components, this.rows, degrees);
    this.givenLogs = logFactors(components, this.rows.slice(0, given), degrees);
    this.jointFactors = this.jointLogs.map(Math.exp);
    this.givenFactors = this.givenLogs.map(Math.exp);
  }

  /** Numbers that are kept here. */
  get size(): number {
    const type = this.means.length + (this.given + 1) * this.components.length + this.mixtures;
    const slope = this.means.length + 2 * this.components.length;
    return (
      this.means.length +
      this.rows.reduce((sum, { lower }) => sum + lower.length, 0) +
      this.types.length * type +
      this.slopes.reduce((sum, known) => sum + (known ? slope : 0), 0)
    );
  }

  /**
   * What the covariates alone say: the same for all readings of one type of machine, so the next of that type
   * finds it done.
   *
   * @param values - The known values, covariates first
   * @param work - Works it out for `values` that were not seen lately
   */
  conditionedOn(values: Float64Array, work: (pattern: this, into: Conditioned) => void): Conditioned {
    const { types, given } = this;
    let place = 0;
    while (place < types.length && !startsWith(values, types[place]!.values)) place++;
    if (place === 0 && types.length > 0) return types[0]!;
    const known = types[place];
    const found = known ?? (types.length < KEPT_TYPES ? this.room() : types.pop()!);
    if (!known) {
      for (let i = 0; i < given; i++) found.values[i] = values[i]!;
      work(this, found);
    } else types.splice(place, 1);
    types.unshift(found);
    return found;
  }

  private room(): Conditioned {
    const count = this.components.length;
    return {
      values: new Float64Array(this.given),
      base: new Float64Array(this.means.length),
      white: new Float64Array(this.given * count),
      squares: new Float64Array(count),
      density: new Float64Array(this.mixtures),
    };
  }

  /** How components foretell a coordinate from the (other) known ones. */
  slopesTo(coordinate: number): Slopes {
    return (this.slopes[coordinate] ??= this.noSlopes(coordinate));
  }

  private noSlopes(coordinate: number): Slopes {
    const count = this.components.length;
    return {
      coordinate,
      place: this.known.indexOf(coordinate),
      means: Float64Array.from(this.components, ({ mean }) => mean[coordinate]!),
      ofWhite: new Float64Array(count * this.known.length),
      spreads: new Float64Array(count).fill(Number.NaN),
    };
  }

  /**
   * An unknown coordinate: its covariances in terms of the whitened distances. A known one: its column of
   * the inverted factor, whose square is the precision that all the others leave it. Gives the spread.
   */
  solve({ coordinate, place, ofWhite, spreads }: Slopes, c: number): number {
    const { known, rows, components } = this;
    const n = known.length;
    const count = components.length;
    const { covariance } = components[c]!;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const { lower } = rows[i]!;
      let w = place >= 0 ? (i === place ? 1 : 0) : covariance[placeInTriangle(coordinate, known[i]!)]!;
      let k = c;
      for (let j = 0; j < i; j++, k += count) w -= lower[k]! * ofWhite[c * n + j]!;
      w *= lower[k]!;
      ofWhite[c * n + i] = w;
      squares += w * w;
    }
    const variance = place >= 0 ? 1 / squares : covariance[placeInTriangle(coordinate, coordinate)]! - squares;
    return (spreads[c] = Math.sqrt(Math.max(variance, 1e-9)));
  }
}

/** How every component foretells one coordinate. */
export interface Slopes {
  readonly coordinate: number;
  /** Place of the coordinate among the known ones; −1 where it is unknown. */
  readonly place: number;
  /** Mean of the coordinate by itself. */
  readonly means: Float64Array;
  /** A row a component: what the whitened distance of each known coordinate weighs. */
  readonly ofWhite: Float64Array;
  /** Spread that is left to the coordinate; NaN until it is asked. */
  readonly spreads: Float64Array;
}

/** Log of weight and of the density's constant over the coordinates of some rows, a number a component. */
function logFactors(components: readonly Component[], rows: readonly FactorRow[], degrees: number): Float64Array {
  const tails = constant(rows.length, degrees);
  const roots = rows.at(-1)?.logRoots;
  return Float64Array.from(components, ({ weight }, c) => Math.log(weight) + tails - (roots ? roots[c]! : 0));
}

/** Log of the constant of a density with such tails over `n` coordinates. */
function constant(n: number, degrees: number): number {
  return logGamma((degrees + n) / 2) - logGamma(degrees / 2) - (n / 2) * Math.log(degrees * Math.PI);
}

function startsWith(values: Float64Array, first: Float64Array): boolean {
  for (let i = 0; i < first.length; i++) if (values[i] !== first[i]) return false;
  return true;
}
