import { medianSorted } from "simple-statistics";

/** A lasting change of level in a series. */
export interface Step {
  /** Place of the first point on the new level. */
  readonly at: number;
  /** New level less old level [value]. */
  readonly size: number;
  /** Size over its own uncertainty [1]. */
  readonly score: number;
}

/** Points looked at on either side. */
const REACH = 5;
/** Places that a quick look picks out for the careful one. */
const LOOKED_AT = 3;
const LEAST_POINTS = 6;
/**
 * A step this many times its uncertainty is one: white noise without a step gives one in fewer than
 * a hundred series of 12 to 36 points (measured in the tests).
 */
export const CLEAR = 8;

/**
 * Lasting changes of level in a series, oldest first: a replaced battery, a repair, another meter. A
 * steady slope is none, nor is a single wild value.
 *
 * @param x - Places in ascending order
 * @param y - Values, one for each place
 * @param floor - Noise that every value has at least [value]
 */
export function findSteps(x: readonly number[], y: readonly number[], floor: number): readonly Step[] {
  const found: Step[] = [];
  search(x, y, floor, 0, x.length, found);
  return found.sort((a, b) => a.at - b.at);
}

function search(
  x: readonly number[],
  y: readonly number[],
  floor: number,
  from: number,
  to: number,
  found: Step[],
): void {
  if (to - from < LEAST_POINTS) return;
  let best: Step | undefined;
  for (const at of likeliest(y, from, to)) {
    const step = stepAt(x, y, floor, at, from, to);
    if (step && step.score >= CLEAR && step.score > (best?.score ?? 0)) best = step;
  }
  if (!best) return;
  best = atItsJump(y, best, from, to);
  found.push(best);
  search(x, y, floor, from, best.at, found);
  search(x, y, floor, best.at, to, found);
}

/** A step scores nearly as high a place early or late: it stands where the values jump most, sized by three on either side. */
function atItsJump(y: readonly number[], step: Step, from: number, to: number): Step {
  const jump = (i: number) => Math.sign(step.size) * (y[i]! - y[i - 1]!);
  const places = range(Math.max(from + 2, step.at - 2), Math.min(to - 2, step.at + 2) + 1);
  const at = places.reduce((best, i) => (jump(i) > jump(best) ? i : best), step.at);
  const size = middleOf(y, at, Math.min(to, at + 3)) - middleOf(y, Math.max(from, at - 3), at);
  return { at, size, score: step.score };
}

/** The few places where three values before and three after differ most. */
function likeliest(y: readonly number[], from: number, to: number): readonly number[] {
  const places: { at: number; by: number }[] = [];
  for (let at = from + 2; at <= to - 2; at++) {
    const by = Math.abs(middleOf(y, at, Math.min(to, at + 3)) - middleOf(y, Math.max(from, at - 3), at));
    places.push({ at, by });
  }
  places.sort((a, b) => b.by - a.by);
  return places.slice(0, LOOKED_AT).map(({ at }) => at);
}

/** The step at one place, with the slope that both sides share taken out. */
function stepAt(
  x: readonly number[],
  y: readonly number[],
  floor: number,
  at: number,
  from: number,
  to: number,
): Step | undefined {
  const first = Math.max(from, at - REACH);
  const last = Math.min(to, at + REACH);
  if (at - first < 2 || last - at < 2) return undefined;
  const slopes: number[] = [];
  for (const [a, b] of [
    [first, at],
    [at, last],
  ] as const) {
    for (let i = a; i < b; i++)
      for (let j = i + 1; j < b; j++) if (x[j] !== x[i]) slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
  }
  const slope = slopes.length === 0 ? 0 : medianOf(slopes);
  const flat = (i: number) => y[i]! - slope * (x[i]! - x[at]!);
  const before = range(first, at).map(flat);
  const after = range(at, last).map(flat);
  const [low, high] = [medianOf([...before]), medianOf([...after])];
  const off = [...before.map((v) => Math.abs(v - low)), ...after.map((v) => Math.abs(v - high))];
  const n = off.length;
  // The median deviation of few points about their own medians comes out too small, so what the
  // whole series does from one visit to the next counts as well.
  const noise = Math.max(floor, 1.4826 * medianOf(off) * (n / (n - 3)), roughness(y.slice(from, to)));
  const size = high - low;
  return { at, size, score: Math.abs(size) / (noise * Math.sqrt(1.57 / before.length + 1.57 / after.length)) };
}

/** Standard deviation of a series from its moves between neighbours: half of them may be wild. */
export function roughness(y: readonly number[]): number {
  const moves = y.slice(1).map((value, i) => Math.abs(value - y[i]!));
  return moves.length === 0 ? 0 : 1.048 * medianOf(moves);
}

function middleOf(y: readonly number[], from: number, to: number): number {
  const some = y.slice(from, to).sort((a, b) => a - b);
  return medianSorted(some);
}

function medianOf(values: number[]): number {
  return medianSorted(values.sort((a, b) => a - b));
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, i) => from + i);
}
