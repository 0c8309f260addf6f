import { normalChance } from "../judgement/normal";
import { inverseRoot, logAdd, logGamma } from "./powers";

/**
 * Densities of normal-like mixtures of which only some coordinates are known. What was not read is
 * integrated out exactly, so an unread reading changes nothing; what is known beforehand (the first
 * coordinates: covariates) is conditioned on, so it is no evidence itself.
 */
export interface Component {
  readonly weight: number;
  readonly mean: Float64Array;
  /** Lower triangle of the covariance, row by row, `n(n+1)/2` numbers. */
  readonly covariance: Float64Array;
}

/** Components that together foretell the readings of one signature. */
export interface Mixture {
  readonly name: string;
  readonly components: readonly Component[];
}

/** Everything about one pattern of known coordinates that does not depend on the values. */
interface Pattern {
  readonly known: Int32Array;
  /** How many of `known` are covariates. */
  readonly given: number;
  /** Per component: means of the known coordinates, then the Cholesky factor with reciprocal diagonal. */
  readonly means: Float64Array;
  readonly lowers: Float64Array;
  readonly jointConstant: Float64Array;
  readonly givenConstant: Float64Array;
  /** The same two without the logarithm. */
  readonly jointFactor: Float64Array;
  readonly givenFactor: Float64Array;
  /** Per component and coordinate: spread of an unknown one, given the known ones; NaN until it is asked. */
  readonly spreads: Float64Array;
}

/** Patterns are kept up to this many numbers, 32 MB: a fleet with gaps has a few hundred patterns. */
const KEPT_NUMBERS = 4_000_000;
/** Below this a product of factors may have lost digits, and logarithms take over. */
const SMALLEST = 1e-250;

export class MaskedMixtures {
  private readonly patterns = new Map<number, Pattern>();
  private keptNumbers = 0;
  private readonly components: readonly Component[];
  private readonly starts: Int32Array;
  /** Whole covariances, a row of a component after the other. */
  private readonly squares: Float64Array;
  private readonly middles: Float64Array;
  private readonly dimension: number;

  /** The vector looked at last, with all that was worked out for it: many questions follow about one. */
  private seen: Float64Array | undefined;
  private pattern!: Pattern;
  private readonly values: Float64Array;
  private readonly white: Float64Array;
  private readonly square: Float64Array;
  private readonly density: Float64Array;
  private readonly pulls: Float64Array;
  private readonly pulled: Uint8Array;
  private readonly centres: Float64Array;
  private readonly spreads: Float64Array;
  private readonly logs: Float64Array;

  /**
   * @param mixtures - All over the same coordinates, covariates first
   * @param covariates - How many coordinates are covariates
   * @param degrees - Degrees of freedom of the tails: the fewer, the less one odd reading can say
   */
  constructor(
    readonly mixtures: readonly Mixture[],
    private readonly covariates: number,
    private readonly degrees: number,
  ) {
    this.components = mixtures.flatMap((m) => m.components);
    const starts = [0];
    for (const m of mixtures) starts.push(starts.at(-1)! + m.components.length);
    this.starts = Int32Array.from(starts);
    const count = this.components.length;
    const n = (this.dimension = this.components[0]?.mean.length ?? 0);
    this.middles = new Float64Array(count * n);
    this.components.forEach(({ mean }, c) => this.middles.set(mean, c * n));
    this.squares = new Float64Array(count * n * n);
    this.components.forEach(({ covariance }, c) => {
      for (let i = 0; i < n * n; i++) this.squares[c * n * n + i] = covariance[at(Math.floor(i / n), i % n)]!;
    });
    this.values = new Float64Array(n);
    this.white = new Float64Array(count * n);
    this.square = new Float64Array(count);
    this.density = new Float64Array(count);
    this.pulls = new Float64Array(count * n);
    this.pulled = new Uint8Array(count);
    this.centres = new Float64Array(mixtures.length * n);
    this.spreads = new Float64Array(mixtures.length * n);
    this.logs = new Float64Array(mixtures.length);
  }

  /**
   * Log density of the known readings under each mixture, given the known covariates.
   *
   * @param x - One value a coordinate, NaN where not known; not to be changed afterwards
   * @returns One number a mixture; zeros where no reading is known
   */
  logDensities(x: Float64Array): Float64Array {
    this.lookAt(x);
    return this.logs.slice();
  }

  /**
   * What a mixture foretells of one coordinate when everything else that is known of `x` is given.
   *
   * @returns Middle and spread, on the coordinate's own scale
   */
  foretell(mixture: number, x: Float64Array, coordinate: number): { readonly centre: number; readonly spread: number } {
    if (!Number.isNaN(x[coordinate]!)) return this.without(x, coordinate).foretell(mixture, this.others, coordinate);
    const at = this.placeOf(mixture, x, coordinate);
    return { centre: this.centres[at]!, spread: this.spreads[at]! };
  }

  /** Chance that a coordinate lies below a value, foretold as by `foretell`. */
  chanceBelow(mixture: number, x: Float64Array, coordinate: number, value: number): number {
    if (!Number.isNaN(x[coordinate]!))
      return this.without(x, coordinate).chanceBelow(mixture, this.others, coordinate, value);
    const at = this.placeOf(mixture, x, coordinate);
    return normalChance((value - this.centres[at]!) / this.spreads[at]!);
  }

  /** The same for several values in rising order, written into `out` from `at` on. */
  chancesBelow(
    mixture: number,
    x: Float64Array,
    coordinate: number,
    values: readonly number[],
    out: Float64Array,
    at: number,
  ): void {
    if (!Number.isNaN(x[coordinate]!)) {
      this.without(x, coordinate).chancesBelow(mixture, this.others, coordinate, values, out, at);
      return;
    }
    const place = this.placeOf(mixture, x, coordinate);
    const centre = this.centres[place]!;
    const spread = this.spreads[place]!;
    for (let i = 0; i < values.length; i++) out[at + i] = normalChance((values[i]! - centre) / spread);
  }

  private placeOf(mixture: number, x: Float64Array, coordinate: number): number {
    this.lookAt(x);
    const at = mixture * this.dimension + coordinate;
    if (Number.isNaN(this.centres[at]!)) this.work(mixture, coordinate, at);
    return at;
  }

  /** Looks at `others` while this one keeps its look at all: a half-done check asks both in turn. */
  private aside: MaskedMixtures | undefined;
  private whole: Float64Array | undefined;
  private leftOut = -1;
  private others = new Float64Array(0);

  /** Sets `others` to all that is known but one coordinate, and gives the mixtures that look at it. */
  private without(x: Float64Array, coordinate: number): MaskedMixtures {
    if (this.whole !== x || this.leftOut !== coordinate) {
      this.whole = x;
      this.leftOut = coordinate;
      this.others = Float64Array.from(x);
      this.others[coordinate] = Number.NaN;
    }
    return (this.aside ??= new MaskedMixtures(this.mixtures, this.covariates, this.degrees));
  }

  private lookAt(x: Float64Array): void {
    if (this.seen === x) return;
    this.seen = undefined;
    const pattern = (this.pattern = this.patternOf(x));
    this.pulled.fill(0);
    this.centres.fill(Number.NaN);
    const { known, given, means, lowers, jointFactor, givenFactor } = pattern;
    const n = known.length;
    const { starts, white, square, density, logs, degrees } = this;
    const size = (n * (n + 1)) / 2;
    const { values } = this;
    for (let i = 0; i < n; i++) values[i] = x[known[i]!]!;
    for (let m = 0; m < logs.length; m++) {
      let joint = 0;
      let before = 0;
      for (let c = starts[m]!; c < starts[m + 1]!; c++) {
        let sum = 0;
        let sumGiven = 0;
        const row = c * n;
        for (let i = 0, k = c * size; i < n; i++) {
          let w = values[i]! - means[row + i]!;
          for (let j = 0; j < i; j++, k++) w -= lowers[k]! * white[row + j]!;
          w *= lowers[k++]!;
          white[row + i] = w;
          sum += w * w;
          if (i === given - 1) sumGiven = sum;
        }
        square[c] = sum;
        joint += density[c] = jointFactor[c]! * inverseRoot(1 + sum / degrees, degrees + n);
        before += givenFactor[c]! * inverseRoot(1 + sumGiven / degrees, degrees + given);
      }
      if (n === given) logs[m] = 0;
      else if (joint > SMALLEST && before > SMALLEST) logs[m] = Math.log(joint / before);
      else logs[m] = this.farOut(m);
    }
    this.seen = x;
  }

  /** Readings so odd that their density is too small a number: the same by logarithms. */
  private farOut(mixture: number): number {
    const { known, given, jointConstant, givenConstant } = this.pattern;
    const n = known.length;
    const nu = this.degrees;
    let joint = -Infinity;
    let before = -Infinity;
    for (let c = this.starts[mixture]!; c < this.starts[mixture + 1]!; c++) {
      let givenSquare = 0;
      for (let i = 0; i < given; i++) givenSquare += this.white[c * n + i]! ** 2;
      joint = logAdd(joint, jointConstant[c]! - 0.5 * (nu + n) * Math.log1p(this.square[c]! / nu));
      before = logAdd(before, givenConstant[c]! - 0.5 * (nu + given) * Math.log1p(givenSquare / nu));
    }
    return joint - before;
  }

  /** Middle and spread of an unknown coordinate: each component's own, weighed by how well it fits the rest. */
  private work(mixture: number, coordinate: number, at: number): void {
    const from = this.starts[mixture]!;
    const to = this.starts[mixture + 1]!;
    if (to - from === 1) {
      this.centres[at] = this.centreOf(from, coordinate);
      this.spreads[at] = this.spreadOf(from, coordinate);
      return;
    }
    const { density } = this;
    let total = 0;
    for (let c = from; c < to; c++) total += density[c]!;
    if (total <= SMALLEST) total = this.farWeights(from, to);
    let centre = 0;
    let second = 0;
    for (let c = from; c < to; c++) {
      const own = this.centreOf(c, coordinate);
      const spread = this.spreadOf(c, coordinate);
      centre += density[c]! * own;
      second += density[c]! * (own * own + spread * spread);
    }
    centre /= total;
    this.centres[at] = centre;
    this.spreads[at] = Math.sqrt(Math.max(second / total - centre * centre, 1e-12));
  }

  /** Densities too small for a number, set anew as shares of the greatest; gives their sum. */
  private farWeights(from: number, to: number): number {
    const { known, jointConstant } = this.pattern;
    const log = (c: number) =>
      jointConstant[c]! - 0.5 * (this.degrees + known.length) * Math.log1p(this.square[c]! / this.degrees);
    let top = -Infinity;
    for (let c = from; c < to; c++) top = Math.max(top, log(c));
    let total = 0;
    for (let c = from; c < to; c++) total += this.density[c] = Math.exp(log(c) - top);
    return total;
  }

  /** Where a component sees an unknown coordinate: its mean, pulled by how far the known ones are off theirs. */
  private centreOf(c: number, coordinate: number): number {
    const { known, lowers } = this.pattern;
    const n = known.length;
    const { pulls, white } = this;
    const row = c * n;
    if (this.pulled[c] === 0) {
      // Back substitution: the inverse covariance of the known coordinates on their distances.
      for (let i = n - 1, start = c * ((n * (n + 1)) / 2); i >= 0; i--) {
        let pull = white[row + i]!;
        for (let j = i + 1; j < n; j++) pull -= lowers[start + (j * (j + 1)) / 2 + i]! * pulls[row + j]!;
        pulls[row + i] = pull * lowers[start + (i * (i + 3)) / 2]!;
      }
      this.pulled[c] = 1;
    }
    const { squares, dimension } = this;
    const covariances = (c * dimension + coordinate) * dimension;
    let centre = this.middles[c * dimension + coordinate]!;
    for (let i = 0; i < n; i++) centre += squares[covariances + known[i]!]! * pulls[row + i]!;
    return centre;
  }

  private spreadOf(c: number, coordinate: number): number {
    const { known, lowers, spreads } = this.pattern;
    const place = c * this.dimension + coordinate;
    if (!Number.isNaN(spreads[place]!)) return spreads[place]!;
    const { squares, dimension } = this;
    const covariances = (c * dimension + coordinate) * dimension;
    const n = known.length;
    const across = this.values;
    let left = squares[covariances + coordinate]!;
    for (let i = 0, k = (c * n * (n + 1)) / 2; i < n; i++) {
      let w = squares[covariances + known[i]!]!;
      for (let j = 0; j < i; j++, k++) w -= lowers[k]! * across[j]!;
      w *= lowers[k++]!;
      across[i] = w;
      left -= w * w;
    }
    return (spreads[place] = Math.sqrt(Math.max(left, 1e-9)));
  }

  /** Tables of machines ask the same columns row after row: factors are kept by which are known. */
  private patternOf(x: Float64Array): Pattern {
    let mask = 0;
    for (let i = 0; i < x.length; i++) if (!Number.isNaN(x[i]!)) mask += 2 ** i;
    const kept = this.patterns.get(mask);
    if (kept) return kept;
    const known: number[] = [];
    for (let i = 0; i < x.length; i++) if (!Number.isNaN(x[i]!)) known.push(i);
    const pattern = this.factor(known);
    this.keptNumbers += sizeOf(pattern);
    for (const [oldest, old] of this.patterns) {
      if (this.keptNumbers <= KEPT_NUMBERS) break;
      this.patterns.delete(oldest);
      this.keptNumbers -= sizeOf(old);
    }
    this.patterns.set(mask, pattern);
    return pattern;
  }

  private factor(known: readonly number[]): Pattern {
    const n = known.length;
    const given = known.filter((i) => i < this.covariates).length;
    const count = this.components.length;
    const size = (n * (n + 1)) / 2;
    const means = new Float64Array(count * n);
    const lowers = new Float64Array(count * size);
    const jointConstant = new Float64Array(count);
    const givenConstant = new Float64Array(count);
    const constant = (m: number) =>
      logGamma((this.degrees + m) / 2) - logGamma(this.degrees / 2) - (m / 2) * Math.log(this.degrees * Math.PI);
    const ofAll = constant(n);
    const ofGiven = constant(given);
    this.components.forEach(({ weight, mean, covariance }, c) => {
      const lower = lowers.subarray(c * size, (c + 1) * size);
      let logDeterminant = 0;
      let atGiven = 0;
      for (let i = 0; i < n; i++) {
        means[c * n + i] = mean[known[i]!]!;
        const row = (i * (i + 1)) / 2;
        for (let j = 0; j <= i; j++) {
          const col = (j * (j + 1)) / 2;
          let sum = covariance[at(known[i]!, known[j]!)]!;
          for (let k = 0; k < j; k++) sum -= lower[row + k]! * lower[col + k]!;
          if (j < i) lower[row + j] = sum * lower[col + j]!;
          else {
            const root = Math.sqrt(Math.max(sum, 1e-9));
            logDeterminant += Math.log(root);
            lower[row + j] = 1 / root;
          }
        }
        if (i === given - 1) atGiven = logDeterminant;
      }
      jointConstant[c] = Math.log(weight) + ofAll - logDeterminant;
      givenConstant[c] = Math.log(weight) + ofGiven - atGiven;
    });
    return {
      known: Int32Array.from(known),
      given,
      means,
      lowers,
      jointConstant,
      givenConstant,
      jointFactor: jointConstant.map(Math.exp),
      givenFactor: givenConstant.map(Math.exp),
      spreads: new Float64Array(count * this.dimension).fill(Number.NaN),
    };
  }
}

function sizeOf({ means, lowers, spreads }: Pattern): number {
  return means.length + lowers.length + spreads.length;
}

/** Place of an element in a lower triangle, whichever index is the larger. */
function at(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}
