/** Small dense Gaussian algebra for the few readings of one check. Matrices are arrays of rows. */

const LOG_2PI = Math.log(2 * Math.PI);

/**
 * Log density of up to three readings that share two causes: covariance = own²·I + a·aᵀ + b·bᵀ.
 * A reading that was not taken is NaN and drops out.
 *
 * @param residual - Readings minus mean, NaN where not taken
 * @param own - Variance of each reading by itself
 * @param a - Part of each reading in the first common cause, in standard deviations
 * @param b - Part in the second
 */
export function logThree(residual: Triple, own: Triple, a: Triple, b: Triple): number {
  let count = 0;
  // A reading not taken counts as a sure hit of unit variance, taken back below.
  const r = (i: 0 | 1 | 2) => (Number.isNaN(residual[i]) ? 0 : residual[i]);
  const v = (i: 0 | 1 | 2, j: 0 | 1 | 2) => {
    if (Number.isNaN(residual[i]) || Number.isNaN(residual[j])) return i === j ? 1 : 0;
    return a[i] * a[j] + b[i] * b[j] + (i === j ? own[i] : 0);
  };
  for (let i = 0; i < 3; i++) if (!Number.isNaN(residual[i as 0])) count++;
  const l00 = Math.sqrt(v(0, 0));
  const l10 = v(1, 0) / l00;
  const l20 = v(2, 0) / l00;
  const l11 = Math.sqrt(Math.max(v(1, 1) - l10 * l10, 1e-30));
  const l21 = (v(2, 1) - l20 * l10) / l11;
  const l22 = Math.sqrt(Math.max(v(2, 2) - l20 * l20 - l21 * l21, 1e-30));
  const w0 = r(0) / l00;
  const w1 = (r(1) - l10 * w0) / l11;
  const w2 = (r(2) - l20 * w0 - l21 * w1) / l22;
  return -0.5 * (w0 * w0 + w1 * w1 + w2 * w2 + count * LOG_2PI) - Math.log(l00 * l11 * l22);
}

/** Values at AB, BC, CA (or phases A, B, C). */
export type Triple = readonly [number, number, number];

/** Log density of one normal reading. */
export function logNormal(residual: number, sd: number): number {
  return -0.5 * ((residual / sd) ** 2 + LOG_2PI) - Math.log(sd);
}

/** log Σ exp, safe for very small chances. */
export function logSum(logs: readonly number[]): number {
  let top = -Infinity;
  for (const l of logs) if (l > top) top = l;
  if (top === -Infinity) return -Infinity;
  let sum = 0;
  for (const l of logs) sum += Math.exp(l - top);
  return top + Math.log(sum);
}

/** Evenly spread points from `low` to `high` in logarithm, both ends included. */
export function logGrid(low: number, high: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => low * (high / low) ** (i / Math.max(1, count - 1)));
}
