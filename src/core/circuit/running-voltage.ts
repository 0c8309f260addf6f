import type { BatteryType } from "../battery/types";
import { judge, type JudgeOptions } from "../judgement/judge";
import type { Judged, Limit, ReadingState } from "../judgement/types";
import { numberIn, quantityById } from "../readings/catalogue";
import type { Job, Measured } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import { chargingBand, type ChargingBand } from "./charging-band";

/** Readings of the running voltage; each may be missing. */
export interface RunningReadings {
  readonly rest?: Measured | undefined;
  readonly idle?: Measured | undefined;
  readonly test?: Measured | undefined;
  readonly idleRpm?: number | undefined;
  readonly testRpm?: number | undefined;
  readonly loadAmps?: number | undefined;
}

export interface RunningVerdict {
  readonly state: ReadingState;
  readonly idle: Judged;
  readonly test: Judged;
  /** Test speed over rest [V]; absent where either was not read. */
  readonly riseVolts?: number;
  readonly reason: string;
}

/** A charging system lifts the voltage at least this far over rest at 12 V: less is a battery left alone. */
const LEAST_RISE = 0.3;
/** Without machine data nothing is called bad inside these, at 12 V. */
const LENIENT_LOW = 13;
const LENIENT_HIGH = 15.5;

/**
 * Judges the running voltage: at test speed against the charging band, at idle against what the
 * machine can deliver there (without machine data only against the upper end), and the rise over rest.
 *
 * @param readings - Rested, idle and test-speed voltage, speeds, load
 * @param type - Battery type
 * @param temperature - Battery temperature [°C]
 * @param job - Machine data, if any
 * @source technician-courses (13.5 to 15.0 V; below 13.0 V not charging), common-practice
 */
export function runningVoltage(
  readings: RunningReadings,
  type: BatteryType,
  temperature: number | undefined,
  job: Job | undefined,
  options: JudgeOptions = {},
): Result<RunningVerdict> {
  const { rest, idle, test, idleRpm, testRpm, loadAmps } = readings;
  const known = job !== undefined && job.size > 0 ? withRest(job, rest) : undefined;
  const scale = (known === undefined ? 12 : (numberIn(known, "battery-nominal") ?? 12)) / 12;
  const band = (rpm: number | undefined) => chargingBand({ type, temperature, job: known, rpm, loadAmps });
  return andThen(band(testRpm), (testBand) =>
    andThen(band(idleRpm), (idleBand) => {
      const atTest = judge(
        quantityById("test-voltage"),
        test,
        limitOf(testBand, known, scale, known === undefined || testRpm !== undefined),
        options,
      );
      const foreseen = known !== undefined && idleRpm !== undefined;
      const idleLimit = limitOf(idleBand, known, scale, foreseen);
      const atIdle = judge(
        quantityById("idle-voltage"),
        idle,
        foreseen ? idleLimit : aboveRest(idleLimit, rest),
        options,
      );
      const rise = rest?.kind === "number" && test?.kind === "number" ? test.value - rest.value : undefined;
      const idleWords = atIdle.state === "not read" ? "" : ` ${atIdle.reason}`;
      const flat = rise !== undefined && rise < LEAST_RISE * scale;
      const state = worse(atTest.state, atIdle.state);
      return ok({
        state,
        idle: atIdle,
        test: atTest,
        ...(rise === undefined ? {} : { riseVolts: rise }),
        reason: `${flat ? `Only ${rise.toFixed(2)} V over rest: the battery is not being charged. ` : ""}${atTest.reason}${idleWords}`,
      });
    }),
  );
}

function limitOf({ volts, words }: ChargingBand, job: Job | undefined, scale: number, lowerCounts: boolean): Limit {
  const origin: Limit["origin"] = job
    ? { from: "computed", words }
    : { from: "published", source: "technician-courses", words };
  const lenient = job
    ? lowerCounts
      ? undefined
      : { high: Math.max(volts.high, LENIENT_HIGH * scale) }
    : { low: LENIENT_LOW * scale, high: LENIENT_HIGH * scale };
  return { low: volts.low, high: volts.high, origin, ...(lenient ? { lenient } : {}) };
}

/** At idle, not knowing the machine: above rest is in order, below it nobody can say; only the upper end condemns. */
function aboveRest(limit: Limit, rest: Measured | undefined): Limit {
  const high = limit.lenient?.high ?? limit.high;
  return {
    ...limit,
    ...(rest?.kind === "number" ? { low: rest.value } : {}),
    lenient: high === undefined ? {} : { high },
  };
}

/** What was read of the battery belongs to what is expected of it. */
function withRest(job: Job, rest: Measured | undefined): Job {
  return rest === undefined || job.has("rested-voltage") ? job : new Map(job).set("rested-voltage", rest);
}

function worse(a: ReadingState, b: ReadingState): ReadingState {
  const order: readonly ReadingState[] = ["fail", "unsure", "pass", "not read"];
  return order[Math.min(order.indexOf(a), order.indexOf(b))]!;
}
