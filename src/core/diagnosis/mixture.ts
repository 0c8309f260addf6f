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
}

const KEPT_PATTERNS = 48;

export class MaskedMixtures {
  private readonly patterns = new Map<number, Pattern>();
  private readonly components: readonly Component[];
  private readonly starts: Int32Array;

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
  }

  /**
   * Log density of the known readings under each mixture, given the known covariates.
   *
   * @param x - One value a coordinate, NaN where not known
   * @returns One number a mixture; zeros where no reading is known
   */
  logDensities(x: Float64Array): Float64Array {
    const out = new Float64Array(this.mixtures.length);
    const pattern = this.patternOf(x);
    const { known, given, means, lowers, jointConstant, givenConstant } = pattern;
    const n = known.length;
    if (n === given) return out;
    const nu = this.degrees;
    const size = (n * (n + 1)) / 2;
    const white = new Float64Array(n);
    const values = new Float64Array(n);
    for (let i = 0; i < n; i++) values[i] = x[known[i]!]!;
    for (let m = 0; m < out.length; m++) {
      let joint = -Infinity;
      let before = -Infinity;
      for (let c = this.starts[m]!; c < this.starts[m + 1]!; c++) {
        let square = 0;
        let givenSquare = 0;
        for (let i = 0, k = c * size; i < n; i++) {
          let w = values[i]! - means[c * n + i]!;
          for (let j = 0; j < i; j++, k++) w -= lowers[k]! * white[j]!;
          w *= lowers[k++]!;
          white[i] = w;
          square += w * w;
          if (i === given - 1) givenSquare = square;
        }
        joint = logAdd(joint, jointConstant[c]! - 0.5 * (nu + n) * Math.log1p(square / nu));
        before = logAdd(before, givenConstant[c]! - 0.5 * (nu + given) * Math.log1p(givenSquare / nu));
      }
      out[m] = joint - before;
    }
    return out;
  }

  /**
   * What a mixture foretells of one coordinate when everything else that is known of `x` is given.
   *
   * @returns Middle and spread, on the coordinate's own scale
   */
  foretell(mixture: number, x: Float64Array, coordinate: number): { readonly centre: number; readonly spread: number } {
    const pattern = this.patternFor(x, coordinate);
    const { known, means, lowers, jointConstant } = pattern;
    const n = known.length;
    const size = (n * (n + 1)) / 2;
    const nu = this.degrees;
    const white = new Float64Array(n - 1);
    let top = -Infinity;
    const seen: { log: number; centre: number; spread: number }[] = [];
    for (let c = this.starts[mixture]!; c < this.starts[mixture + 1]!; c++) {
      let square = 0;
      let k = c * size;
      for (let i = 0; i < n - 1; i++) {
        let w = x[known[i]!]! - means[c * n + i]!;
        for (let j = 0; j < i; j++, k++) w -= lowers[k]! * white[j]!;
        w *= lowers[k++]!;
        white[i] = w;
        square += w * w;
      }
      let centre = means[c * n + n - 1]!;
      for (let j = 0; j < n - 1; j++, k++) centre += lowers[k]! * white[j]!;
      const spread = 1 / lowers[k]!;
      const logOwn = jointConstant[c]! + Math.log(spread) - 0.5 * (nu + n - 1) * Math.log1p(square / nu);
      top = Math.max(top, logOwn);
      seen.push({ log: logOwn, centre, spread });
    }
    let total = 0;
    let centre = 0;
    let second = 0;
    for (const s of seen) {
      const weight = Math.exp(s.log - top);
      total += weight;
      centre += weight * s.centre;
      second += weight * (s.centre ** 2 + s.spread ** 2);
    }
    centre /= total;
    return { centre, spread: Math.sqrt(Math.max(second / total - centre ** 2, 1e-12)) };
  }

  private readonly foretelling = new Map<string, Pattern>();

  /** The known coordinates with the wanted one last. */
  private patternFor(x: Float64Array, coordinate: number): Pattern {
    let mask = 0;
    for (let i = 0; i < x.length; i++) if (i !== coordinate && !Number.isNaN(x[i]!)) mask += 2 ** i;
    const key = `${mask}:${coordinate}`;
    const kept = this.foretelling.get(key);
    if (kept) return kept;
    const known: number[] = [];
    for (let i = 0; i < x.length; i++) if (i !== coordinate && !Number.isNaN(x[i]!)) known.push(i);
    const pattern = this.factor([...known, coordinate]);
    if (this.foretelling.size >= 4 * KEPT_PATTERNS) this.foretelling.delete(this.foretelling.keys().next().value!);
    this.foretelling.set(key, pattern);
    return pattern;
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
    if (this.patterns.size >= KEPT_PATTERNS) this.patterns.delete(this.patterns.keys().next().value!);
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
    return { known: Int32Array.from(known), given, means, lowers, jointConstant, givenConstant };
  }
}

/** Place of an element in a lower triangle, whichever index is the larger. */
function at(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}

function logAdd(a: number, b: number): number {
  if (a === -Infinity) return b;
  return a > b ? a + Math.log1p(Math.exp(b - a)) : b + Math.log1p(Math.exp(a - b));
}

/** Stirling's series after shifting the argument up; better than 1e-10 for x ≥ 0.5. */
export function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 8) {
    shift -= Math.log(z);
    z += 1;
  }
  const y = 1 / (z * z);
  return (
    shift +
    (z - 0.5) * Math.log(z) -
    z +
    0.5 * Math.log(2 * Math.PI) +
    (1 / z) * (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y / 1680)))
  );
}
