import { judge, type JudgeOptions } from "../judgement/judge";
import { rangeFor, TYPICAL_HANDHELD, uncertaintyOf, withOhmStep, type Meter } from "../judgement/meter";
import type { Judged, Limit } from "../judgement/types";
import { rectangular, rootSumSquares, type Uncertain } from "../judgement/uncertain";
import { choiceIn, numberIn, quantityById } from "../readings/catalogue";
import { PAIRS } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { judgeBalance, type Balance } from "./balance";
import { reasonOf, stateWith, worstOf } from "./worst-of";
import { patternOf } from "./winding-pattern";
import { copperFactor } from "./winding-temperature";
import type { Connection, LineReading } from "./windings";

/** Meter leads that nobody read: 0.05 to 0.4 Ω on a hand-held meter [Ω]. @source common-practice */
const UNREAD_LEADS: Uncertain = { value: 0.225, u: rectangular(0.175) };
/** Winding temperature that nobody noted: 10 to 50 °C [°C]. @source common-practice */
const UNNOTED_TEMPERATURE: Uncertain = { value: 30, u: rectangular(20) };
/** To this the resistances are referred [°C]. */
export const REFERENCE_TEMPERATURE = 20;

/** Largest deviation of a line reading from the mean. @source ar100 resistance unbalance; common-practice for the lenient side */
export const OHMS_BALANCE = {
  high: 0.02,
  lenient: { high: 0.05 },
  origin: {
    from: "published",
    source: "ar100",
    words: "ANSI/EASA AR100: 2 % from the mean, random-wound; over 5 %, common practice, it fails",
  },
} as const satisfies Limit;

export interface WindingOhmsJudged {
  /** The worst of balance and level; `not read` where no pair was read. */
  readonly state: Judged["state"];
  readonly reason: string;
  /** Each pair against the machine's own figure, by catalogue id. */
  readonly readings: ReadonlyMap<string, Judged>;
  /** Absent while not all three pairs show ohms. */
  readonly balance?: Balance;
  /** Line resistances without leads, at 20 °C [Ω]; `OL` as shown, `undefined` where not read. */
  readonly atReference: readonly (LineReading | undefined)[];
  /** What unequal readings point to, in plain words. */
  readonly pattern: string;
}

/**
 * Judges the line-to-line winding resistances of a job: leads taken off with their own uncertainty,
 * the machine's figure referred to the temperature of the stator, unbalance against what the meter
 * can tell apart. Without a figure of the machine the level stays unsure.
 */
export function judgeWindingOhms(job: Job, options: JudgeOptions = {}): WindingOhmsJudged {
  const measured = PAIRS.map((pair) => job.get(`winding-${pair}`));
  const meter = ohmmeterOf(job, options.meter);
  const judging = { ...options, meter };
  const leads = leadsOf(job, meter);
  const limit = windingLimit(job, options.meter);
  const readings = new Map<string, Judged>();
  PAIRS.forEach((pair, i) => {
    if (measured[i])
      readings.set(`winding-${pair}`, judge(quantityById(`winding-${pair}`), measured[i], limit, judging));
  });
  const lines = measured.map((reading) => lineOf(reading, leads.value));
  const balance = balanceOf(measured, leads, meter, options);
  const connection = connectionOf(job);
  const u = Math.max(0, ...measured.map((reading) => (reading ? countsOf(reading, meter) : 0)));
  const pattern = lines.every((line) => line !== undefined)
    ? patternOf(lines as [LineReading, LineReading, LineReading], connection, u, leads.u)
    : "";
  const open = openJudged(lines, pattern);
  const judged = [...(open ? [open] : []), ...(balance ? [balance.judged] : []), ...readings.values()];
  const worst = worstOf(judged);
  const temperature = numberIn(job, "stator-temperature") ?? UNNOTED_TEMPERATURE.value;
  const missing = measured.some((reading) => reading === undefined);
  return {
    state: worst ? stateWith(worst.state, missing) : "not read",
    reason: worst ? reasonOf(worst, open ? "" : pattern, missing) : "Winding resistance was not read.",
    readings,
    ...(balance ? { balance } : {}),
    atReference: lines.map((line) =>
      typeof line === "number" ? line * copperFactor(temperature, REFERENCE_TEMPERATURE) : line,
    ),
    pattern,
  };
}

/**
 * The machine's figure as the meter should show it: at the temperature of the stator, leads on top.
 *
 * @returns `undefined` where the machine's data says nothing
 */
export function windingLimit(job: Job, meter: Meter = TYPICAL_HANDHELD): Limit | undefined {
  const low = numberIn(job, "stator-ohms-min");
  const high = numberIn(job, "stator-ohms-max");
  if (low === undefined && high === undefined) return undefined;
  const stated = numberIn(job, "stator-ohms-temp") ?? REFERENCE_TEMPERATURE;
  const noted = numberIn(job, "stator-temperature");
  const leads = leadsOf(job, ohmmeterOf(job, meter));
  const factor = copperFactor(stated, noted ?? UNNOTED_TEMPERATURE.value);
  const largest = Math.max(low ?? 0, high ?? 0);
  const uTemperature =
    noted === undefined
      ? largest * (copperFactor(stated, UNNOTED_TEMPERATURE.value + UNNOTED_TEMPERATURE.u) - factor)
      : 0;
  const at = noted === undefined ? "stator temperature not noted" : `stator at ${noted} °C`;
  const from = leads.read ? `leads ${leads.value} Ω` : "meter leads not read";
  return {
    ...(low === undefined ? {} : { low: low * factor + leads.value }),
    ...(high === undefined ? {} : { high: high * factor + leads.value }),
    u: rootSumSquares(leads.u, uTemperature),
    origin: {
      from: "machine data",
      words: `machine's figure ${[low, high].filter((x) => x !== undefined).join(" to ")} Ω at ${stated} °C, ${at}, ${from}`,
    },
  };
}

/**
 * The ohmmeter with the step that the job notes; where nobody noted it and no meter is known, the
 * finest digit among the readings shows it: 0.35 beside 0.3 was not read on a 0.1 Ω display.
 */
function ohmmeterOf(job: Job, meter: Meter = TYPICAL_HANDHELD): Meter {
  const noted = numberIn(job, "meter-ohm-step");
  const range = rangeFor(meter, "ohms", 0);
  if (noted !== undefined || !range.assumed) return withOhmStep(meter, noted);
  const shown = [...PAIRS.map((pair) => `winding-${pair}`), "meter-leads"].flatMap(
    (id) => lastDigit(job.get(id)) ?? [],
  );
  const finest = Math.min(range.resolution, ...shown);
  return finest < range.resolution ? withOhmStep(meter, finest) : meter;
}

/** Size of the last digit of a reading as it was written down. */
function lastDigit(measured: Measured | undefined): number | undefined {
  if (measured?.kind !== "number" || measured.value >= AS_GOOD_AS_OPEN) return undefined;
  return measured.resolution ?? 10 ** -Math.min(4, /\.(\d+)$/u.exec(String(measured.value))?.[1]?.length ?? 0);
}

interface Leads extends Uncertain {
  readonly read: boolean;
}

function leadsOf(job: Job, meter: Meter): Leads {
  const measured = job.get("meter-leads");
  if (measured?.kind !== "number") return { ...UNREAD_LEADS, read: false };
  return { value: measured.value, u: uncertaintyOf(measured, meter, "ohms"), read: true };
}

export function connectionOf(job: Job): Connection | undefined {
  const word = choiceIn(job, "stator-connection");
  return word === "delta" || word === "wye" ? word : undefined;
}

/** A winding of ohms is as good as open to a meter that shows so much. */
const AS_GOOD_AS_OPEN = 1e4;

function lineOf(measured: Measured | undefined, leads: number): LineReading | undefined {
  if (measured?.kind === "overload") return "OL";
  if (measured?.kind === "above") return measured.value >= AS_GOOD_AS_OPEN ? "OL" : undefined;
  if (measured?.kind !== "number") return undefined;
  return measured.value >= AS_GOOD_AS_OPEN ? "OL" : measured.value - leads;
}

/** What is not common to three readings of one meter: counts and digits; the gain cancels. */
function countsOf(measured: Measured, meter: Meter): number {
  return measured.kind === "number" ? uncertaintyOf(measured, withoutGain(meter), "ohms") : 0;
}

function withoutGain(meter: Meter): Meter {
  const own = meter.ranges.some((range) => range.of === "ohms") ? meter : TYPICAL_HANDHELD;
  return {
    name: meter.name,
    ranges: own.ranges.filter((range) => range.of === "ohms").map((range) => ({ ...range, percent: 0 })),
  };
}

function balanceOf(
  measured: readonly (Measured | undefined)[],
  leads: Uncertain,
  meter: Meter,
  options: JudgeOptions,
): Balance | undefined {
  const values = measured.map((reading) =>
    reading?.kind === "number" && reading.value < AS_GOOD_AS_OPEN
      ? { value: reading.value, u: countsOf(reading, meter) }
      : undefined,
  );
  if (values.some((one) => one === undefined)) return undefined;
  return judgeBalance("Winding resistance", values as [Uncertain, Uncertain, Uncertain], OHMS_BALANCE, {
    offset: leads,
    ...(options.rule ? { rule: options.rule } : {}),
  });
}

/** Over-range between two terminals of a stator is a break, whatever the machine's figure is. */
function openJudged(lines: readonly (LineReading | undefined)[], pattern: string): Judged | undefined {
  if (!lines.includes("OL")) return undefined;
  return {
    state: "fail",
    reason: `Winding resistance: ${pattern === "" ? "over-range between two terminals is a break" : pattern}.`,
  };
}
