/** Small dense Gaussian algebra for the few readings of one check. Matrices are arrays of rows. */

/**
 * Log density of a multivariate normal.
 *
 * @param residual - Reading minus mean
 * @param covariance - Positive definite; only its lower triangle is read
 * @returns Natural logarithm of the density
 */
export function logNormalDensity(residual: readonly number[], covariance: readonly (readonly number[])[]): number {
  const n = residual.length;
  const factor: number[][] = [];
  const white: number[] = [];
  let logDeterminant = 0;
  let square = 0;
  for (let i = 0; i < n; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      let sum = covariance[i]![j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * (j === i ? row[k]! : factor[j]![k]!);
      if (j < i) row.push(sum / factor[j]![j]!);
      else row.push(Math.sqrt(Math.max(sum, 1e-30)));
    }
    factor.push(row);
    let w = residual[i]!;
    for (let k = 0; k < i; k++) w -= row[k]! * white[k]!;
    w /= row[i]!;
    white.push(w);
    square += w * w;
    logDeterminant += Math.log(row[i]!);
  }
  return -0.5 * square - logDeterminant - 0.5 * n * Math.log(2 * Math.PI);
}

/** Log density of one normal reading. */
export function logNormal(residual: number, sd: number): number {
  return -0.5 * (residual / sd) ** 2 - Math.log(sd) - 0.5 * Math.log(2 * Math.PI);
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
