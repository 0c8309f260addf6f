import { median } from "simple-statistics";
import { fail, ok, type Result } from "../result";
import { signed } from "../signed";
import { dayOfYear } from "./dates";
import { robustSlope } from "./robust-slope";

/** Two visits are of one season when their days of the year lie this close [d]. */
const SEASON_DAYS = 46;
const YEAR = 365.2425;
const ROUNDS = 8;

export interface Visit {
  /** Worksheet day [d]. */
  readonly day: number;
  readonly value: number;
  /** [°C]; the value is referred to the median temperature where every visit has one. */
  readonly temperature?: number;
}

export interface Trend {
  readonly visits: number;
  /** Change a year, with its interval [value / year]. */
  readonly perYear: number;
  readonly perYearLow: number;
  readonly perYearHigh: number;
  /** Chance of as clear a run without any trend (Mann–Kendall, two-sided), 0 to 1. */
  readonly p: number;
  readonly state: "falling" | "rising" | "steady" | "not enough visits";
  /** Level today's line gives at the last visit [value]. */
  readonly level: number;
  /** Worksheet day on which the line crosses the limit; absent where it never does. */
  readonly crosses?: number;
  readonly crossesEarliest?: number;
  readonly crossesLatest?: number;
  /** How season and temperature were allowed for, in words. */
  readonly allowedFor: string;
}

/**
 * Robust trend of one reading of one machine, and the day on which it crosses a limit.
 *
 * With temperatures, the effect of temperature is taken out by turns with the trend (both Theil–Sen).
 * Over two years and more, only visits of the same season are compared.
 *
 * @param visits - Any order; at least four for a verdict
 * @param limit - Value that must not be crossed
 * @param confidence - Of the intervals, 0 to 1
 * @returns The trend; `outside-range` for a confidence that is none
 * @source sen1968; mann-kendall; hirsch1982 (like season with like)
 */
export function trend(visits: readonly Visit[], limit: number | undefined, confidence = 0.9): Result<Trend> {
  if (!(confidence > 0.5 && confidence < 1)) {
    return fail({ code: "outside-range", what: "confidence", came: confidence, min: 0.5, max: 1, unit: "" });
  }
  const sorted = [...visits].sort((a, b) => a.day - b.day);
  const days = sorted.map((v) => v.day);
  const span = (days.at(-1) ?? 0) - (days[0] ?? 0);
  const seasons = span >= 2 * YEAR && sorted.length >= 8;
  const sameSeason = (i: number, j: number) => {
    const apart = Math.abs(dayOfYear(days[i]!) - dayOfYear(days[j]!));
    return Math.min(apart, YEAR - apart) <= SEASON_DAYS && Math.abs(days[i]! - days[j]!) > SEASON_DAYS;
  };
  const comparable = seasons ? sameSeason : undefined;
  const { values, note } = withoutTemperature(sorted, days, confidence, comparable);
  const allowedFor = [note, seasons ? "like season compared with like" : ""].filter(Boolean).join("; ") || "nothing";
  const line = robustSlope(days, values, confidence, comparable);
  const last = days.at(-1);
  if (!line || last === undefined || sorted.length < 4) {
    return ok({
      visits: sorted.length,
      perYear: Number.NaN,
      perYearLow: Number.NaN,
      perYearHigh: Number.NaN,
      p: Number.NaN,
      state: "not enough visits",
      level: Number.NaN,
      allowedFor,
    });
  }
  const level = line.intercept + line.slope * last;
  const clear = line.p <= 1 - confidence;
  return ok({
    visits: sorted.length,
    perYear: line.slope * YEAR,
    perYearLow: line.low * YEAR,
    perYearHigh: line.high * YEAR,
    p: line.p,
    state: clear && line.slope !== 0 ? (line.slope < 0 ? "falling" : "rising") : "steady",
    level,
    ...(limit === undefined || !clear ? {} : crossing(level, last, limit, line.slope, line.low, line.high)),
    allowedFor,
  });
}

function crossing(level: number, last: number, limit: number, slope: number, low: number, high: number) {
  const day = (s: number) => (s !== 0 && (limit - level) / s >= 0 ? last + (limit - level) / s : undefined);
  const likely = day(slope);
  if (likely === undefined) return {};
  const [steep, flat] = slope < 0 ? [low, high] : [high, low];
  const earliest = Number.isFinite(steep) ? day(steep) : undefined;
  const latest = Math.sign(flat) === Math.sign(slope) ? day(flat) : undefined;
  return {
    crosses: likely,
    ...(earliest === undefined ? {} : { crossesEarliest: earliest }),
    ...(latest === undefined ? {} : { crossesLatest: latest }),
  };
}

function withoutTemperature(
  sorted: readonly Visit[],
  days: readonly number[],
  confidence: number,
  comparable: ((i: number, j: number) => boolean) | undefined,
) {
  const values = sorted.map((v) => v.value);
  const temperatures = sorted.map((v) => v.temperature);
  const known = temperatures.filter((t) => t !== undefined);
  if (known.length < sorted.length || sorted.length < 6 || new Set(known).size < 3) return { values, note: "" };
  const middle = median(known);
  const warmth = known.map((t) => t - middle);
  let effect = 0;
  let corrected = values;
  for (let round = 0; round < ROUNDS; round++) {
    const line = robustSlope(days, corrected, confidence, comparable);
    const rest = values.map((v, i) => v - (line?.slope ?? 0) * days[i]!);
    effect = robustSlope(warmth, rest, confidence)?.slope ?? 0;
    corrected = values.map((v, i) => v - effect * warmth[i]!);
  }
  // What is left of numbers alike is the binary fraction's own noise.
  if (Math.abs(effect) < 1e-9 * Math.max(...values.map(Math.abs))) effect = 0;
  return {
    values: corrected,
    note: `referred to ${signed(String(Number(middle.toFixed(1))))} °C at ${signed(String(Number(effect.toPrecision(3))))} per °C`,
  };
}
