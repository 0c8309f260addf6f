import { conform, decide, GUARDED, type DecisionRule } from "../judgement/conformance";
import type { Uncertain } from "../judgement/uncertain";
import type { Judged, Limit } from "../judgement/types";
import { fail, ok, type Result } from "../result";

export const PAIR_NAMES = ["A–B", "B–C", "C–A"] as const;

/**
 * Unbalance of three readings: the largest deviation from their mean, as a share of the mean.
 *
 * @param a - Three readings of the same kind and unit, 0 or more
 * @returns Unbalance [1], 0 to 2; `refused` where all are zero
 * @source nema-mg1 part 14, voltage unbalance
 */
export function unbalance(a: number, b: number, c: number): Result<number> {
  const mean = (a + b + c) / 3;
  if (!(mean > 0)) {
    return fail({
      code: "refused",
      what: "unbalance",
      why: "three readings of zero have no unbalance",
      instead: "check the leads and the range, and read again",
    });
  }
  return ok(Math.max(...[a, b, c].map((one) => Math.abs(one - mean))) / mean);
}

/** How evenly three readings lie, with what the meter can tell apart. */
export interface Balance {
  /** Largest deviation from the mean [1]. */
  readonly unbalance: number;
  /** Place of the reading that deviates most. */
  readonly worst: 0 | 1 | 2;
  /** Twice the standard uncertainty of that deviation: smaller unbalances cannot be told from none [1]. */
  readonly resolves: number;
  readonly judged: Judged;
}

/**
 * Judges how evenly three readings of one meter lie. Its gain error is common to all three and
 * cancels; what remains are counts and digits, and an offset that all readings contain (the leads).
 *
 * @param what - What was read, for the reason
 * @param readings - Three readings with the uncertainty that is not common to them, same unit
 * @param limit - Largest deviation from the mean that passes, `lenient` from where it fails [1]
 * @param offset - Part of every reading that does not belong to the winding, same unit
 * @param rule - Decision rule
 */
export function judgeBalance(
  what: string,
  readings: readonly [Uncertain, Uncertain, Uncertain],
  limit: Limit & { readonly high: number },
  { offset = { value: 0, u: 0 }, rule = GUARDED }: { readonly offset?: Uncertain; readonly rule?: DecisionRule } = {},
): Balance {
  const deviations = deviationsOf(readings, offset);
  const worst = indexOfLargest(deviations.map(({ value }) => Math.abs(value))) as 0 | 1 | 2;
  const { value, u } = deviations[worst]!;
  const strict = Math.min(...deviations.map((d) => conform(d.value, d.u, { low: -limit.high, high: limit.high })));
  // It fails on proof that a deviation is larger, not on a meter so coarse that nothing is proved;
  // three deviations are looked at, so the proof is asked three times over.
  const most = limit.lenient?.high ?? limit.high;
  const lenient = Math.min(1, 3 * conform(Math.abs(value), u, { high: most }));
  const state = decide(strict, rule) === "pass" ? "pass" : decide(lenient, rule) === "fail" ? "fail" : "unsure";
  const size = percent(Math.abs(value));
  const place =
    Math.abs(value) < 5e-4
      ? "the three readings agree"
      : `${PAIR_NAMES[worst]} lies ${size} ${value < 0 ? "below" : "above"} the mean`;
  const resolves = 2 * Math.max(...deviations.map((d) => d.u));
  const against = `limit ${percent(limit.high)} (${limit.origin.words})`;
  const coarse = resolves > limit.high && resolves > Math.abs(value);
  const reason = {
    pass: `${what}: the three readings agree within ${size}, ${against}.`,
    fail: `${what}: ${place}, more than ${percent(most)} (${limit.origin.words}).`,
    unsure: !Number.isFinite(resolves)
      ? `${what}: the readings come to zero, so nothing is left to compare; ${against}.`
      : coarse
        ? `${what}: ${place}, but such readings tell nothing below ${percent(resolves)} apart; ${against}.`
        : `${what}: ${place}, too close to decide; ${against}.`,
  }[state];
  return { unbalance: Math.abs(value), worst, resolves, judged: { state, limit, chance: strict, reason } };
}

/**
 * Each reading's deviation from the mean, v/m − 1 with v without the offset, and its uncertainty to
 * first order: the three own parts and the offset, which moves all readings and the mean alike.
 *
 * @source jcgm100 section 5.1.2
 */
function deviationsOf(
  readings: readonly [Uncertain, Uncertain, Uncertain],
  offset: Uncertain,
): readonly [Uncertain, Uncertain, Uncertain] {
  const values = readings.map(({ value }) => value - offset.value);
  const mean = (values[0]! + values[1]! + values[2]!) / 3;
  // Readings that leave nothing after the leads are taken off say nothing about balance.
  if (Math.abs(mean) < 1e-12)
    return readings.map(() => ({ value: 0, u: Infinity })) as unknown as [Uncertain, Uncertain, Uncertain];
  return values.map((value, i) => {
    const share = value / mean;
    const own = readings.map(({ u }, j) => (u * ((i === j ? 1 : 0) - share / 3)) / mean);
    return { value: share - 1, u: Math.hypot(...own, (offset.u * (share - 1)) / mean) };
  }) as unknown as [Uncertain, Uncertain, Uncertain];
}

function indexOfLargest(values: readonly number[]): number {
  return values.reduce((best, value, i) => (value > values[best]! ? i : best), 0);
}

export function percent(share: number): string {
  return `${Number((share * 100).toFixed(share < 0.1 ? 1 : 0))} %`;
}
