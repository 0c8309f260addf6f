import { outside } from "../range";
import { fail, ok, type Result } from "../result";
import { normalChance } from "./normal";
import type { Interval, ReadingState } from "./types";

/**
 * Chance that the true value lies within the limits, given what was read and how well.
 *
 * @param value - Best estimate, in the unit of the limits
 * @param u - Standard uncertainty of the comparison, same unit, 0 or more; 0 compares exactly
 * @param limits - Interval; a missing side has no end
 * @returns Chance of conformance [1], 0 to 1
 * @source jcgm106 section 7, normal distribution
 */
export function conform(value: number, u: number, { low = -Infinity, high = Infinity }: Interval): number {
  if (!(u > 0)) return value >= low && value <= high ? 1 : 0;
  // From the nearer side, so that a tail is not lost in the difference of two numbers close to 1.
  const below = normalChance((low - value) / u);
  const above = normalChance((value - high) / u);
  return Math.max(0, 1 - below - above);
}

/**
 * The same for limits as somebody entered them.
 *
 * @returns Chance [1]; `missing` without any limit, `refused` where the lower limit is the higher one,
 *   `outside-range` for an uncertainty below 0
 */
export function conformEntered(
  value: number,
  low: number | undefined,
  high: number | undefined,
  u: number,
): Result<number> {
  if (low === undefined && high === undefined)
    return fail({ code: "missing", what: "low and high", expected: "at least one limit" });
  if (low !== undefined && high !== undefined && low > high) {
    return fail({
      code: "refused",
      what: "limits",
      why: `the lower one, ${low}, is above the higher one, ${high}`,
      instead: "exchange them",
    });
  }
  const range = outside("u", u, 0, 1e300, "");
  return range ?? ok(conform(value, u, { low: low ?? -Infinity, high: high ?? Infinity }));
}

/** From which chance on a reading passes, and up to which it fails; `unsure` lies between. */
export interface DecisionRule {
  /** [1], above 0.5 up to 1. */
  readonly passAt: number;
  /** [1], 0 up to below 0.5. */
  readonly failAt: number;
}

/** Guarded on both sides: neither a bad part cleared nor a good one condemned by the meter. */
export const GUARDED: DecisionRule = { passAt: 0.95, failAt: 0.05 };

/**
 * The rule that keeps a guard band of `k` standard uncertainties inside and outside the limit.
 *
 * @param k - Width of the guard band in standard uncertainties, 0 or more; 0 decides at the limit
 * @source ilac-g8 guard band w = U
 */
export function guardedBy(k: number): DecisionRule {
  const passAt = normalChance(k);
  return { passAt, failAt: 1 - passAt };
}

/** The rule that passes from one chance on and fails, mirrored, at the other end. */
export function ruleAt(passAt: number): DecisionRule {
  return { passAt, failAt: 1 - passAt };
}

/**
 * The state of a reading under a rule. It fails only where it lies beyond one limit with the rule's
 * chance: a reading in the middle of limits much closer than the meter can tell is unsure, not bad,
 * though it hardly ever lies between them.
 *
 * @param value - Best estimate, in the unit of the limits
 * @param u - Standard uncertainty, same unit, 0 or more
 * @param limits - Passes within these
 * @param outer - Fails beyond these; the same ones where not given
 */
export function decideReading(
  value: number,
  u: number,
  limits: Interval,
  rule: DecisionRule = GUARDED,
  outer: Interval = limits,
): ReadingState {
  if (conform(value, u, limits) >= rule.passAt) return "pass";
  const { low = -Infinity, high = Infinity } = outer;
  const insideOne = Math.min(conform(value, u, { low }), conform(value, u, { high }));
  return insideOne <= rule.failAt ? "fail" : "unsure";
}

/** The state that a chance of conformance to a limit on one side means under a rule. */
export function decide(chance: number, rule: DecisionRule = GUARDED): ReadingState {
  if (chance >= rule.passAt) return "pass";
  if (chance <= rule.failAt) return "fail";
  return "unsure";
}
