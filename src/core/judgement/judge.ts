import { topOf, uncertaintyOf, TYPICAL_HANDHELD, type Meter } from "./meter";
import { conform, decideReading, GUARDED, type DecisionRule } from "./conformance";
import { limitWords, numberWords } from "./words";
import { rootSumSquares } from "./uncertain";
import type { Measured, MeterFunction } from "../readings/types";
import type { Interval, Judged, Limit, ReadingState } from "./types";

/** What a reading is, as far as judging needs it; every quantity of the catalogue is one. */
export interface Judgeable {
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
  readonly meter?: MeterFunction;
}

export interface JudgeOptions {
  readonly meter?: Meter;
  readonly rule?: DecisionRule;
  /** Standard uncertainty of the reading where it is known better than from the meter alone. */
  readonly u?: number;
}

export const NOT_READ: Judged = { state: "not read", reason: "Not read." };

/** Neither pass nor fail, and why. */
export function unsure(reason: string, more: Partial<Judged> = {}): Judged {
  return { ...more, state: "unsure", reason };
}

/**
 * Judges one reading against one limit: the chance that its true value conforms, and the state that
 * this means under the decision rule.
 *
 * @param what - The quantity that was read
 * @param measured - The reading; `undefined` is `not read`, never zero
 * @param limit - Where it should lie; without a limit the answer is `unsure`
 * @param options - Meter, decision rule
 */
export function judge(
  what: Judgeable,
  measured: Measured | undefined,
  limit: Limit | undefined,
  options: JudgeOptions = {},
): Judged {
  if (!measured) return NOT_READ;
  if (!limit) return unsure(`${what.label}: no sourced limit is known, so it is not judged.`);
  if (measured.kind === "overload") {
    return judgeSide(what, "over-range", meterTop(what, options), limit, "above");
  }
  if (measured.kind === "above" || measured.kind === "below") {
    const sign = measured.kind === "above" ? ">" : "<";
    return judgeSide(what, `${sign} ${numberWords(measured.value, what)}`, measured.value, limit, measured.kind);
  }
  if (measured.kind !== "number") return unsure(`${what.label}: a word is not judged against a limit.`);
  const u = rootSumSquares(
    options.u ?? (what.meter ? uncertaintyOf(measured, options.meter ?? TYPICAL_HANDHELD, what.meter) : 0),
    limit.u ?? 0,
  );
  return judgeNumber(what, measured.value, u, limit, options.rule ?? GUARDED);
}

/** Judges a number whose standard uncertainty is known. */
export function judgeNumber(
  what: Judgeable,
  value: number,
  u: number,
  limit: Limit,
  rule: DecisionRule = GUARDED,
): Judged {
  const chance = conform(value, u, limit);
  const state = decideReading(value, u, limit, rule, limit.lenient);
  return { state, limit, chance, reason: reasonOf(what, numberWords(value, what), u, limit, state) };
}

/** A reading that is known only to lie above, or below, a value. */
function judgeSide(what: Judgeable, shown: string, value: number, limit: Limit, side: "above" | "below"): Judged {
  const possible: Interval = side === "above" ? { low: value } : { high: value };
  const outside = limit.lenient ?? limit;
  const state: ReadingState = within(possible, limit) ? "pass" : apart(possible, outside) ? "fail" : "unsure";
  const chance = state === "pass" ? 1 : state === "fail" ? 0 : undefined;
  const reason = reasonOf(what, shown, 0, limit, state);
  return { state, limit, reason, ...(chance === undefined ? {} : { chance }) };
}

function within(inner: Interval, outer: Interval): boolean {
  return (inner.low ?? -Infinity) >= (outer.low ?? -Infinity) && (inner.high ?? Infinity) <= (outer.high ?? Infinity);
}

function apart(a: Interval, b: Interval): boolean {
  return (a.low ?? -Infinity) >= (b.high ?? Infinity) || (a.high ?? Infinity) <= (b.low ?? -Infinity);
}

function meterTop(what: Judgeable, { meter = TYPICAL_HANDHELD }: JudgeOptions): number {
  return what.meter ? topOf(meter, what.meter) : Infinity;
}

function reasonOf(what: Judgeable, shown: string, u: number, limit: Limit, state: ReadingState): string {
  const subject = `${what.label} ${shown}`;
  const against = `${limitWords(limit, what)} (${limit.origin.words})`;
  if (state === "pass") return `${subject} meets the limit of ${against}.`;
  if (state === "fail") return `${subject} misses the limit of ${against}.`;
  const doubt = limit.lenient
    ? "the limit is not known closely enough to decide"
    : u > 0
      ? `too close to decide with ±${numberWords(2 * u, { ...what, decimals: what.decimals + 1 })}`
      : "not known closely enough to decide";
  return `${subject} against the limit of ${against}: ${doubt}.`;
}
