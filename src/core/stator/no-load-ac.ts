import { judge, judgeNumber, unsure, type JudgeOptions } from "../judgement/judge";
import { rangeFor, readingUncertainty, TYPICAL_HANDHELD, uncertaintyOf, type Meter } from "../judgement/meter";
import type { CustomaryBand, Judged, Limit } from "../judgement/types";
import { propagate, type Uncertain } from "../judgement/uncertain";
import { choiceIn, numberIn, quantityById } from "../readings/catalogue";
import { PAIRS } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { judgeBalance, PAIR_NAMES, type Balance } from "./balance";
import { reasonOf, stateWith, worstOf } from "./worst-of";
import { departureFromLine } from "./output";
import { TERMINALS } from "./windings";

/** Unbalance of no-load AC: what windings of one stator and a throttle held by hand leave, and what nothing does. */
export const AC_BALANCE = {
  high: 0.02,
  lenient: { high: 0.05 },
  origin: {
    from: "published",
    source: "nema-mg1",
    words: "common practice 2 % of one stator at one speed; NEMA MG 1 tolerates 5 % at most",
  },
} as const satisfies Limit;

/** What people quote for small permanent-magnet stators [V per 1000 rpm]; shown, never deciding. */
export const CUSTOMARY_OUTPUT = { low: 12, high: 25 } as const;

/** A nominal voltage without a tolerance: within 10 % it passes, beyond 20 % it fails. @source common-practice */
const UNSTATED_TOLERANCE = { passes: 0.1, fails: 0.2 } as const;

/** Between two terminals of which one has no winding behind it a meter still picks this up [1 of the largest]. */
const DEAD = 0.1;

export interface NoLoadJudged {
  /** The worst of balance, level and the line through two speeds. */
  readonly state: Judged["state"];
  readonly reason: string;
  /** Each pair against the machine's own figure at this speed, by catalogue id; both speeds. */
  readonly readings: ReadonlyMap<string, Judged>;
  /** Absent while not all three pairs were read at the first speed, and for single-phase machines. */
  readonly balance?: Balance;
  /** Mean of the pairs that were read [V per 1000 rpm]; absent without speed. */
  readonly perThousand?: number;
  /** Two speeds against each other; absent while only one was read. */
  readonly line?: Judged;
  /** What unequal readings point to, in plain words. */
  readonly pattern: string;
}

/**
 * Judges the no-load AC of a job: balance of the three pairs, level against the machine's figure in
 * proportion to speed, and proportion between two speeds. Without a figure the level is unsure.
 */
export function judgeNoLoadAc(job: Job, options: JudgeOptions = {}): NoLoadJudged {
  const meter = options.meter ?? TYPICAL_HANDHELD;
  const single = ["single-phase", "half-wave"].includes(choiceIn(job, "alternator-kind") ?? "");
  const first = PAIRS.map((pair) => job.get(`no-load-${pair}`));
  const readings = new Map<string, Judged>();
  for (const [prefix, speed] of [
    ["no-load", "no-load-rpm"],
    ["no-load-2", "no-load-rpm-2"],
  ] as const) {
    const ids = PAIRS.map((pair) => `${prefix}-${pair}`).filter((id) => job.has(id));
    if (ids.length === 0) continue;
    const limit = noLoadLimit(job, speed, meter);
    for (const id of ids) readings.set(id, levelOf(job, id, numberIn(job, speed), limit, { ...options, meter }));
  }
  const balance = single ? undefined : balanceOf(first, meter, options);
  const line = lineOf(job, meter, options);
  const pattern = balance && balance.judged.state !== "pass" ? patternOf(first) : "";
  const worst = worstOf([...(balance ? [balance.judged] : []), ...readings.values(), ...(line ? [line] : [])]);
  const perThousand = meanPerThousand(job);
  const missing = !single && first.some((reading) => reading === undefined);
  return {
    state: worst ? stateWith(worst.state, missing) : "not read",
    reason: worst ? reasonOf(worst, pattern, missing) : "No-load AC was not read.",
    readings,
    ...(balance ? { balance } : {}),
    ...(perThousand === undefined ? {} : { perThousand }),
    ...(line ? { line } : {}),
    pattern,
  };
}

/**
 * The machine's no-load figure at the speed of the test; output is proportional to speed.
 *
 * @param speed - Catalogue id of the speed of the readings
 * @returns `undefined` where the figure, its speed or the test speed is not known
 */
export function noLoadLimit(
  job: Job,
  speed: "no-load-rpm" | "no-load-rpm-2" = "no-load-rpm",
  meter: Meter = TYPICAL_HANDHELD,
): Limit | undefined {
  const nominal = numberIn(job, "no-load-nominal");
  const nominalRpm = numberIn(job, "no-load-nominal-rpm");
  const rpm = job.get(speed);
  if (nominal === undefined || nominalRpm === undefined || rpm?.kind !== "number") return undefined;
  const stated = numberIn(job, "no-load-tolerance");
  const volts = (nominal * rpm.value) / nominalRpm;
  const band = (share: number) => ({ low: volts * (1 - share), high: volts * (1 + share) });
  const share = stated === undefined ? UNSTATED_TOLERANCE.passes : stated / 100;
  const words = `machine's figure ${nominal} V at ${nominalRpm} rpm ${stated === undefined ? "without a tolerance" : `±${stated} %`}, at ${rpm.value} rpm`;
  return {
    ...band(share),
    ...(stated === undefined ? { lenient: band(UNSTATED_TOLERANCE.fails) } : {}),
    u: (volts * uncertaintyOf(rpm, meter, "tachometer")) / rpm.value,
    origin: { from: "machine data", words },
  };
}

function levelOf(
  job: Job,
  id: string,
  rpm: number | undefined,
  limit: Limit | undefined,
  options: JudgeOptions,
): Judged {
  const entry = quantityById(id);
  const customary: CustomaryBand | undefined =
    rpm === undefined
      ? undefined
      : {
          low: (CUSTOMARY_OUTPUT.low * rpm) / 1000,
          high: (CUSTOMARY_OUTPUT.high * rpm) / 1000,
          words: `small permanent-magnet stators give about 12 to 25 V per 1000 rpm, a rule of thumb`,
        };
  const judged = limit
    ? judge(entry, job.get(id), limit, options)
    : unsure(
        `${entry.label}: ${rpm === undefined ? "the speed was not noted" : "the machine's no-load figure is not known"}, so its level is not judged.`,
      );
  return customary ? { ...judged, customary } : judged;
}

function balanceOf(
  measured: readonly (Measured | undefined)[],
  meter: Meter,
  options: JudgeOptions,
): Balance | undefined {
  const values = measured.map((reading) =>
    reading?.kind === "number" ? { value: reading.value, u: countsOf(reading, meter) } : undefined,
  );
  if (values.some((one) => one === undefined) || values.every((one) => one!.value === 0)) return undefined;
  return judgeBalance(
    "No-load AC",
    values as [Uncertain, Uncertain, Uncertain],
    AC_BALANCE,
    options.rule ? { rule: options.rule } : {},
  );
}

/** What is not common to readings of one meter: counts and digits; the gain cancels. */
function countsOf({ value, resolution }: Extract<Measured, { kind: "number" }>, meter: Meter): number {
  return readingUncertainty(value, { ...rangeFor(meter, "ac volts", value), percent: 0 }, resolution);
}

/** Output in proportion to speed: where it is not, a speed or a reading is wrong, and never the stator by itself. */
function lineOf(job: Job, meter: Meter, options: JudgeOptions): Judged | undefined {
  const speeds = [job.get("no-load-rpm"), job.get("no-load-rpm-2")] as const;
  const volts = [meanOf(job, "no-load"), meanOf(job, "no-load-2")] as const;
  if (speeds[0]?.kind !== "number" || speeds[1]?.kind !== "number" || !volts[0] || !volts[1]) return undefined;
  const found = departureFromLine(volts[0], speeds[0].value, volts[1], speeds[1].value);
  if (!found.ok) return undefined;
  const inputs: Uncertain[] = [0, 1].flatMap((i) => [
    { value: volts[i]!, u: readingUncertainty(volts[i]!, rangeFor(meter, "ac volts", volts[i]!)) },
    { value: (speeds[i] as { value: number }).value, u: uncertaintyOf(speeds[i]!, meter, "tachometer") },
  ]);
  const { value, u } = propagate((v1, n1, v2, n2) => v2! / n2! / (v1! / n1!) - 1, inputs);
  const limit: Limit = {
    low: -2 * u,
    high: 2 * u,
    origin: { from: "computed", words: "in proportion to speed, within what meter and tachometer leave open" },
  };
  const judged = judgeNumber(
    { label: "No-load AC of two speeds, departure", unit: "1", decimals: 3 },
    value,
    0,
    limit,
    options.rule,
  );
  if (judged.state === "pass") return judged;
  return {
    ...judged,
    state: "unsure",
    reason: `No-load AC is not in proportion to the two speeds (${(value * 100).toFixed(1)} % apart): a speed or a reading is wrong; read both again.`,
  };
}

function meanOf(job: Job, prefix: string): number | undefined {
  const values = PAIRS.flatMap((pair) => numberIn(job, `${prefix}-${pair}`) ?? []);
  return values.length === 0 ? undefined : values.reduce((sum, one) => sum + one, 0) / values.length;
}

function meanPerThousand(job: Job): number | undefined {
  const rpm = numberIn(job, "no-load-rpm");
  const volts = meanOf(job, "no-load");
  return rpm === undefined || volts === undefined ? undefined : (volts * 1000) / rpm;
}

/** What unequal pairs point to; an open winding in a delta does not show here. */
function patternOf(measured: readonly (Measured | undefined)[]): string {
  const volts = measured.map((reading) => (reading?.kind === "number" ? reading.value : Number.NaN));
  const largest = Math.max(...volts);
  const dead = volts.flatMap((one, i) => (one < DEAD * largest ? [i] : []));
  if (dead.length === 2) {
    const alive = [0, 1, 2].find((i) => !dead.includes(i))!;
    const terminal = TERMINALS.find((name) => !PAIR_NAMES[alive]!.includes(name));
    return `Only ${PAIR_NAMES[alive]} gives output: winding or lead ${terminal} is open`;
  }
  const order = [0, 1, 2].sort((i, j) => volts[i]! - volts[j]!);
  const [low, middle, high] = order as [number, number, number];
  const lowGap = volts[middle]! - volts[low]!;
  const highGap = volts[high]! - volts[middle]!;
  if (lowGap > 2 * highGap) return `${PAIR_NAMES[low]} alone is low: turns shorted between its terminals`;
  if (highGap > 2 * lowGap) {
    const terminal = TERMINALS.find((name) => !PAIR_NAMES[high]!.includes(name));
    return `${PAIR_NAMES[low]} and ${PAIR_NAMES[middle]} are low: turns shorted in winding ${terminal}`;
  }
  return "";
}
