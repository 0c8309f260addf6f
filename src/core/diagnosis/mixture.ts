/**
 * Densities of normal mixtures of which only some coordinates are known. Coordinates that were not
 * read are integrated out exactly, so an unread reading changes nothing.
 */
export interface Component {
  readonly weight: number;
  readonly mean: Float64Array;
  /** Lower triangle of the covariance, row by row, `n(n+1)/2` numbers. */
  readonly covariance: Float64Array;
}

/** Cholesky factor of a component's covariance over the known coordinates. */
interface Factor {
  /** Lower triangle; diagonal holds reciprocals. */
  readonly lower: Float64Array;
  readonly logConstant: number;
}

export class MaskedMixtures {
  private readonly cache = new Map<number, readonly Factor[]>();

  constructor(
    readonly components: readonly Component[],
    /** Degrees of freedom of the tails; the fewer, the less one odd reading can say. */
    readonly degrees: number,
  ) {}

  /**
   * Log density of each component at `x`, over the coordinates that are not NaN.
   *
   * @returns Zeros where nothing was read
   */
  logDensities(x: Float64Array): Float64Array {
    const known: number[] = [];
    let mask = 0;
    for (let i = 0; i < x.length; i++) {
      if (Number.isNaN(x[i]!)) continue;
      known.push(i);
      mask += 2 ** i;
    }
    const out = new Float64Array(this.components.length);
    const n = known.length;
    if (n === 0) return out;
    const factors = this.factorsFor(mask, known);
    const white = new Float64Array(n);
    const nu = this.degrees;
    const half = (nu + n) / 2;
    for (let c = 0; c < out.length; c++) {
      const { mean } = this.components[c]!;
      const { lower, logConstant } = factors[c]!;
      let square = 0;
      for (let i = 0, k = 0; i < n; i++) {
        let w = x[known[i]!]! - mean[known[i]!]!;
        for (let j = 0; j < i; j++, k++) w -= lower[k]! * white[j]!;
        w *= lower[k++]!;
        white[i] = w;
        square += w * w;
      }
      out[c] = logConstant - half * Math.log1p(square / nu);
    }
    return out;
  }

  /** Tables of machines ask the same columns row after row: factors are kept by which are known. */
  private factorsFor(mask: number, known: readonly number[]): readonly Factor[] {
    const kept = this.cache.get(mask);
    if (kept) return kept;
    const factors = this.components.map((component) => factorOf(component, known, this.degrees));
    if (this.cache.size >= 64) this.cache.delete(this.cache.keys().next().value!);
    this.cache.set(mask, factors);
    return factors;
  }
}

function factorOf({ covariance }: Component, known: readonly number[], nu: number): Factor {
  const n = known.length;
  const lower = new Float64Array((n * (n + 1)) / 2);
  let logDeterminant = 0;
  const at = (i: number, j: number) => covariance[(i * (i + 1)) / 2 + j]!;
  for (let i = 0; i < n; i++) {
    const row = (i * (i + 1)) / 2;
    for (let j = 0; j <= i; j++) {
      const col = (j * (j + 1)) / 2;
      let sum = at(known[i]!, known[j]!);
      for (let k = 0; k < j; k++) sum -= lower[row + k]! * lower[col + k]!;
      if (j < i) lower[row + j] = sum * lower[col + j]!;
      else {
        const root = Math.sqrt(Math.max(sum, 1e-9));
        logDeterminant += Math.log(root);
        lower[row + j] = 1 / root;
      }
    }
  }
  const logConstant = logGamma((nu + n) / 2) - logGamma(nu / 2) - (n / 2) * Math.log(nu * Math.PI) - logDeterminant;
  return { lower, logConstant };
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
  return shift + (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + (1 / z) * (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y / 1680)));
}
