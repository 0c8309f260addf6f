import { normalChance } from "../judgement/normal";
import { fail, ok, type Result } from "../result";
import { chiSquareAbove } from "./incomplete-gamma";

/**
 * Exact factor k of a two-sided normal tolerance interval: mean ± k·s of n readings holds at least
 * the share `coverage` of all parts, with the given confidence. Howe's formula is an approximation
 * of it (0.25 % low at n = 43, worse below).
 *
 * @param n - Number of readings [1], 2 to 1,000,000
 * @param coverage - Share of parts that the interval shall hold [1], 0.5 to 0.9999
 * @param confidence - Chance that it does [1], 0.5 to 0.9999
 * @returns Factor k [1]; `outside-range` for arguments outside these ranges
 * @source iso16269-6 annex F, exact integral over the distribution of the mean
 */
export function twoSidedFactor(n: number, coverage: number, confidence: number): Result<number> {
  const fault = outside(n, coverage, confidence, 0.5);
  if (fault) return fault;
  // A sheet asks for the same few factors over and over.
  const key = `${n} ${coverage} ${confidence}`;
  const known = FACTORS.get(key) ?? computeTwoSided(n, coverage, confidence);
  if (FACTORS.size < MOST_FACTORS) FACTORS.set(key, known);
  return ok(known);
}

const FACTORS = new Map<string, number>();
const MOST_FACTORS = 10_000;

function computeTwoSided(n: number, coverage: number, confidence: number): number {
  // Given the mean at distance x from its true value (in σ), the interval holds enough parts where
  // k·s ≥ reach(x); s follows from chi-square, so its chance is read off and averaged over x.
  let [x, r] = [0, normalQuantile((1 + coverage) / 2)];
  const points = legendrePoints(0, 6.5 / Math.sqrt(n), 24).map(({ at, weight }) => {
    // The reach grows with x, by at most as much as x does.
    [x, r] = [at, rootOf((w) => normalChance(at + w) - normalChance(at - w) - coverage, r, r + at - x)];
    return { reach: r, weight: weight * 2 * Math.sqrt(n / (2 * Math.PI)) * Math.exp((-n * at * at) / 2) };
  });
  const reached = (k: number) =>
    points.reduce((sum, p) => sum + p.weight * chiSquareAbove((n - 1) * (p.reach / k) ** 2, n - 1), 0);
  return factorOf(reached, confidence);
}

/**
 * Exact factor k of a one-sided normal tolerance limit, mean + k·s or mean − k·s.
 *
 * @param n - Number of readings [1], 2 to 1,000,000
 * @param coverage - Share of parts on the right side of the limit [1], 0.55 to 0.9999
 * @param confidence - Chance that it holds [1], 0.55 to 0.9999
 * @returns Factor k [1]; `outside-range` for arguments outside these ranges
 * @source iso16269-6 annex C: non-central t distribution, integrated over the mean
 */
export function oneSidedFactor(n: number, coverage: number, confidence: number): Result<number> {
  const fault = outside(n, coverage, confidence, 0.55);
  if (fault) return fault;
  const z = normalQuantile(coverage);
  const root = Math.sqrt(n);
  // A mean that lies beyond the quantile itself suffices with any k.
  const top = Math.min(z, 6.5 / root);
  const sure = normalChance(-top * root);
  const points = legendrePoints(-6.5 / root, top, 48).map(({ at, weight }) => ({
    reach: z - at,
    weight: ((weight * root) / Math.sqrt(2 * Math.PI)) * Math.exp((-n * at * at) / 2),
  }));
  const reached = (k: number) =>
    points.reduce((sum, p) => sum + p.weight * chiSquareAbove((n - 1) * (p.reach / k) ** 2, n - 1), sure);
  return ok(factorOf(reached, confidence));
}

function outside(n: number, coverage: number, confidence: number, least: number): Result<never> | undefined {
  if (!(Number.isInteger(n) && n >= 2 && n <= 1e6)) {
    return fail({ code: "outside-range", what: "number of readings", came: n, min: 2, max: 1e6, unit: "" });
  }
  for (const [what, share] of [
    ["coverage", coverage],
    ["confidence", confidence],
  ] as const) {
    if (!(share >= least && share <= 0.9999)) {
      return fail({ code: "outside-range", what, came: share, min: least, max: 0.9999, unit: "" });
    }
  }
  return undefined;
}

function normalQuantile(share: number): number {
  return rootOf((z) => normalChance(z) - share, -10, 10);
}

/** k with chance(k) = confidence; the chance rises from 0 to 1 as k grows, over decades of k. */
function factorOf(chance: (k: number) => number, confidence: number): number {
  const short = (logK: number) => chance(Math.exp(logK)) - confidence;
  let high = 0;
  while (short(high) < 0 && high < 25) high += 1;
  let low = high - 1;
  while (short(low) > 0 && low > -40) low -= 1;
  return Math.exp(rootOf(short, low, high));
}

/** Root of a rising function between two bounds: false position that never lets one end stand (Illinois). */
function rootOf(rising: (x: number) => number, from: number, to: number): number {
  let [low, atLow, high, atHigh] = [from, rising(from), to, rising(to)];
  for (let turn = 0, side = 0; turn < 100; turn++) {
    const middle = (low * atHigh - high * atLow) / (atHigh - atLow);
    const value = rising(middle);
    if (Math.abs(value) < 1e-13 || high - low < 1e-12) return middle;
    if (value < 0) {
      [low, atLow] = [middle, value];
      if (side === -1) atHigh /= 2;
      side = -1;
    } else {
      [high, atHigh] = [middle, value];
      if (side === 1) atLow /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}

/** Points, rising, and weights of Gauss–Legendre integration from `low` to `high`. */
function legendrePoints(low: number, high: number, count: number): { at: number; weight: number }[] {
  const half = (high - low) / 2;
  const points: { at: number; weight: number }[] = [];
  for (let i = count; i >= 1; i--) {
    let x = Math.cos((Math.PI * (i - 0.25)) / (count + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 50; turn++) {
      let previous = 1;
      let value = x;
      for (let j = 2; j <= count; j++) [previous, value] = [value, ((2 * j - 1) * x * value - (j - 1) * previous) / j];
      slope = (count * (x * value - previous)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    points.push({ at: (low + high) / 2 + half * x, weight: (2 * half) / ((1 - x * x) * slope * slope) });
  }
  return points;
}
