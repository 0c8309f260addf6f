import type { Random } from "./random";

/** A normal mixture of full covariances, fitted by expectation and maximisation to complete rows. */
export interface FittedComponent {
  readonly weight: number;
  readonly mean: Float64Array;
  /** Lower Cholesky factor of the covariance, row by row. */
  readonly lower: Float64Array;
}

/**
 * @param rows - Complete rows, none of them with NaN
 * @param count - Components wanted; fewer come back where they starve
 * @param floor - Least standard deviation of each coordinate
 */
export function fitMixture(
  rows: readonly Float64Array[],
  count: number,
  floor: Float64Array,
  random: Random,
  rounds = 60,
): readonly FittedComponent[] {
  const n = floor.length;
  const scale = standardDeviations(rows, floor);
  let means = seeds(rows, count, scale, random);
  let lowers = means.map(() => diagonal(scale, 0.7));
  let weights = means.map(() => 1 / means.length);
  const share = rows.map(() => new Float64Array(means.length));
  for (let round = 0; round < rounds; round++) {
    rows.forEach((row, r) => {
      const logs = means.map(
        (mean, c) => Math.log(Math.max(weights[c]!, 1e-12)) + logDensity(row, mean, lowers[c]!, n),
      );
      const top = Math.max(...logs);
      let sum = 0;
      logs.forEach((l, c) => (sum += share[r]![c] = Math.exp(l - top)));
      logs.forEach((_, c) => (share[r]![c] = share[r]![c]! / sum));
    });
    const next: { mean: Float64Array; lower: Float64Array; weight: number }[] = [];
    for (let c = 0; c < means.length; c++) {
      let total = 0;
      const mean = new Float64Array(n);
      rows.forEach((row, r) => {
        const s = share[r]![c]!;
        total += s;
        for (let i = 0; i < n; i++) mean[i] = mean[i]! + s * row[i]!;
      });
      // A component on too few rows cannot carry a covariance.
      if (means.length > 1 && total < 2.5 * n) continue;
      for (let i = 0; i < n; i++) mean[i] = mean[i]! / total;
      const covariance = new Float64Array((n * (n + 1)) / 2);
      rows.forEach((row, r) => {
        const s = share[r]![c]! / total;
        if (s < 1e-12) return;
        for (let i = 0, k = 0; i < n; i++)
          for (let j = 0; j <= i; j++, k++)
            covariance[k] = covariance[k]! + s * (row[i]! - mean[i]!) * (row[j]! - mean[j]!);
      });
      // Shrink a little towards independence: few rows make covariances look surer than they are.
      const shrink = Math.min(0.3, n / total);
      for (let i = 0, k = 0; i < n; i++) {
        for (let j = 0; j <= i; j++, k++)
          covariance[k] =
            i === j ? covariance[k]! * (1 + shrink) + floor[i]! ** 2 : covariance[k]! * (1 - 0.5 * shrink);
      }
      next.push({ mean, lower: cholesky(covariance, n), weight: total / rows.length });
    }
    if (next.length === 0) throw new Error("no component survived");
    const lost = next.length < means.length;
    means = next.map((c) => c.mean);
    lowers = next.map((c) => c.lower);
    weights = next.map((c) => c.weight);
    if (lost) share.forEach((_, r) => (share[r] = new Float64Array(means.length)));
  }
  return means.map((mean, c) => ({ weight: weights[c]!, mean, lower: lowers[c]! }));
}

function standardDeviations(rows: readonly Float64Array[], floor: Float64Array): Float64Array {
  return floor.map((least, i) => {
    const mean = rows.reduce((sum, row) => sum + row[i]!, 0) / rows.length;
    return Math.max(least, Math.sqrt(rows.reduce((sum, row) => sum + (row[i]! - mean) ** 2, 0) / rows.length));
  });
}

/** Starting points: the middles of the groups that plain k-means finds from random rows. */
function seeds(rows: readonly Float64Array[], count: number, scale: Float64Array, random: Random): Float64Array[] {
  let centres = Array.from({ length: count }, () => Float64Array.from(rows[Math.floor(random.next() * rows.length)]!));
  const far = (a: Float64Array, b: Float64Array) => a.reduce((sum, v, i) => sum + ((v - b[i]!) / scale[i]!) ** 2, 0);
  for (let round = 0; round < 12; round++) {
    const sums = centres.map((c) => ({ mean: new Float64Array(c.length), n: 0 }));
    for (const row of rows) {
      let best = 0;
      let least = Infinity;
      centres.forEach((c, i) => {
        const d = far(row, c);
        if (d < least) [least, best] = [d, i];
      });
      const into = sums[best]!;
      into.n += 1;
      for (let i = 0; i < row.length; i++) into.mean[i] = into.mean[i]! + row[i]!;
    }
    centres = sums.map(({ mean, n }, i) => (n === 0 ? centres[i]! : mean.map((v) => v / n)));
  }
  return centres;
}

function diagonal(scale: Float64Array, times: number): Float64Array {
  const lower = new Float64Array((scale.length * (scale.length + 1)) / 2);
  scale.forEach((s, i) => (lower[(i * (i + 1)) / 2 + i] = s * times));
  return lower;
}

export function cholesky(covariance: Float64Array, n: number): Float64Array {
  const lower = new Float64Array(covariance.length);
  for (let i = 0; i < n; i++) {
    const row = (i * (i + 1)) / 2;
    for (let j = 0; j <= i; j++) {
      const col = (j * (j + 1)) / 2;
      let sum = covariance[row + j]!;
      for (let k = 0; k < j; k++) sum -= lower[row + k]! * lower[col + k]!;
      lower[row + j] = j < i ? sum / lower[col + j]! : Math.sqrt(Math.max(sum, 1e-10));
    }
  }
  return lower;
}

export function logDensity(row: Float64Array, mean: Float64Array, lower: Float64Array, n: number): number {
  const white = new Float64Array(n);
  let log = -0.5 * n * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) {
    const at = (i * (i + 1)) / 2;
    let w = row[i]! - mean[i]!;
    for (let j = 0; j < i; j++) w -= lower[at + j]! * white[j]!;
    w /= lower[at + i]!;
    white[i] = w;
    log -= 0.5 * w * w + Math.log(lower[at + i]!);
  }
  return log;
}
