import { cumulativeStdNormalProbability, median, probit } from "simple-statistics";

/** A pair of points may be compared, or not (another season, another battery). */
export type Comparable = (i: number, j: number) => boolean;

export interface RobustSlope {
  /** Points used. */
  readonly n: number;
  /** Median of the pairwise slopes [value per x]. */
  readonly slope: number;
  /** Interval of the slope at the confidence asked [value per x]; infinite ends where there are too few points. */
  readonly low: number;
  readonly high: number;
  /** Median of y − slope · x [value]. */
  readonly intercept: number;
  /** Mann–Kendall S, its variance with ties, normal score and two-sided chance of as much without a trend. */
  readonly s: number;
  readonly varianceOfS: number;
  readonly z: number;
  readonly p: number;
}

const ALL: Comparable = () => true;

/**
 * Theil–Sen slope with Sen's interval and the Mann–Kendall test: half of the points may be wrong
 * and the slope still stands.
 *
 * @param x - Places, any order; equal places are not compared
 * @param y - Values, one for each place
 * @param confidence - Of the interval, 0 to 1
 * @param comparable - Which pairs may be compared; all of them by default
 * @source sen1968 slope and interval; mann-kendall test with tie correction
 */
export function robustSlope(
  x: readonly number[],
  y: readonly number[],
  confidence: number,
  comparable: Comparable = ALL,
): RobustSlope | undefined {
  const slopes: number[] = [];
  let s = 0;
  const n = x.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (x[i] === x[j] || !comparable(i, j)) continue;
      const slope = (y[j]! - y[i]!) / (x[j]! - x[i]!);
      slopes.push(slope);
      s += Math.sign(slope);
    }
  }
  if (slopes.length === 0) return undefined;
  slopes.sort((a, b) => a - b);
  const slope = median(slopes);
  // Where only some pairs are compared, the variance is that share of the whole one.
  const varianceOfS = (kendallVariance(x, y) * slopes.length) / ((n * (n - 1)) / 2);
  const z = s === 0 || varianceOfS <= 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(varianceOfS);
  const reach = probit((1 + confidence) / 2) * Math.sqrt(Math.max(0, varianceOfS));
  const at = (rank: number): number => {
    // Ranks count from 1 and lie between two slopes: straight line between them.
    const below = Math.floor(rank) - 1;
    if (below < 0) return -Infinity;
    if (below + 1 > slopes.length - 1)
      return below > slopes.length - 1 || rank > slopes.length ? Infinity : slopes[below]!;
    return slopes[below]! + (slopes[below + 1]! - slopes[below]!) * (rank - Math.floor(rank));
  };
  return {
    n,
    slope,
    low: at((slopes.length - reach) / 2),
    high: at((slopes.length + reach) / 2 + 1),
    intercept: median(y.map((value, i) => value - slope * x[i]!)),
    s,
    varianceOfS,
    z,
    p: 2 * (1 - cumulativeStdNormalProbability(Math.abs(z))),
  };
}

/** Variance of S with ties in either series: [n(n−1)(2n+5) − Σ t(t−1)(2t+5)] / 18. */
function kendallVariance(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const ties = (values: readonly number[]) => {
    const counts = new Map<number, number>();
    for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
    return [...counts.values()].reduce((sum, t) => sum + t * (t - 1) * (2 * t + 5), 0);
  };
  return (n * (n - 1) * (2 * n + 5) - ties(y) - ties(x)) / 18;
}
