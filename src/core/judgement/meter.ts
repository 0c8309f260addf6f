import type { Measured, MeterFunction } from "../readings/types";
import { rectangular, rootSumSquares } from "./uncertain";

/** What a meter's sheet says of one range of one function: ±(percent of reading + counts). */
export interface MeterRange {
  readonly of: MeterFunction;
  /** Largest reading of the range, in the function's unit (see `METER_UNITS`). */
  readonly upTo: number;
  /** ± of the reading [%]. */
  readonly percent: number;
  /** ± steps of the last digit. */
  readonly counts: number;
  /** One step of the last digit, in the function's unit. */
  readonly resolution: number;
  /** Nobody said which meter it was: digits that were read count for more than this step. */
  readonly assumed?: boolean;
}

export interface Meter {
  readonly name: string;
  readonly ranges: readonly MeterRange[];
}

/** Unit in which the ranges of each function are given. */
export const METER_UNITS = {
  "dc volts": "V",
  "ac volts": "V AC",
  ohms: "Ω",
  megohms: "MΩ",
  diode: "V",
  "clamp amps": "A",
  milliamps: "mA",
  temperature: "°C",
  hydrometer: "SG",
  tachometer: "rpm",
  clock: "s",
} as const satisfies Record<MeterFunction, string>;

const ranges = (
  of: MeterFunction,
  percent: number,
  counts: number,
  steps: readonly (readonly [upTo: number, resolution: number])[],
): readonly MeterRange[] =>
  steps.map(([upTo, resolution]) => ({ of, upTo, percent, counts, resolution, assumed: true }));

/**
 * A hand-held meter of 2000 counts as found on most benches, and the usual instruments beside it.
 * The figures are common practice, not those of any one meter: a shop enters its own. Speed is as
 * well as a throttle is held by hand.
 */
export const TYPICAL_HANDHELD: Meter = {
  name: "typical hand-held meter",
  ranges: [
    // prettier-ignore
    ...ranges("dc volts", 0.5, 2, [[2, 0.001], [20, 0.01], [200, 0.1], [1000, 1]]),
    // prettier-ignore
    ...ranges("ac volts", 1, 3, [[2, 0.001], [20, 0.01], [200, 0.1], [750, 1]]),
    // prettier-ignore
    ...ranges("ohms", 0.8, 2, [[200, 0.1], [2e3, 1], [2e4, 10], [2e5, 100], [2e6, 1e3], [2e7, 1e4]]),
    // prettier-ignore
    ...ranges("megohms", 3, 5, [[20, 0.01], [200, 0.1], [2000, 1]]),
    ...ranges("diode", 1, 2, [[2, 0.001]]),
    // prettier-ignore
    ...ranges("clamp amps", 2, 3, [[40, 0.1], [1000, 1]]),
    // prettier-ignore
    ...ranges("milliamps", 1, 2, [[2, 0.001], [20, 0.01], [200, 0.1], [20000, 10]]),
    ...ranges("temperature", 1, 2, [[1000, 1]]),
    ...ranges("hydrometer", 0, 1, [[1.4, 0.005]]),
    ...ranges("tachometer", 3, 1, [[20000, 10]]),
    ...ranges("clock", 1, 1, [[1e9, 0.5]]),
  ],
};

/**
 * The range that a reading was taken on: the smallest that holds it, of the shop's own meter where
 * it has that function, else of the typical one.
 */
export function rangeFor(meter: Meter, of: MeterFunction, value: number): MeterRange {
  const own = meter.ranges.filter((range) => range.of === of);
  const all = own.length > 0 ? own : TYPICAL_HANDHELD.ranges.filter((range) => range.of === of);
  const size = Math.abs(value);
  let best: MeterRange | undefined;
  let largest = all[0]!;
  for (const range of all) {
    if (range.upTo >= size && (!best || range.upTo < best.upTo)) best = range;
    if (range.upTo > largest.upTo) largest = range;
  }
  return best ?? largest;
}

/** Above what value a meter shows over-range in a function. */
export function topOf(meter: Meter, of: MeterFunction): number {
  return rangeFor(meter, of, Infinity).upTo;
}

/**
 * Standard uncertainty of one reading: the accuracy of the range as a rectangle, and the last digit
 * as another. The last digit that was written down counts where it is coarser than the meter's.
 *
 * @param value - Reading, in the unit of the function
 * @param range - Accuracy of the range
 * @param writtenStep - Last digit written down, same unit
 * @returns Standard uncertainty, same unit
 * @source jcgm100 sections 4.3.7 (u = a/√3) and F.2.2.1 (resolution)
 */
export function readingUncertainty(value: number, range: MeterRange, writtenStep = 0): number {
  const accuracy = (range.percent / 100) * Math.abs(value) + range.counts * range.resolution;
  const step = Math.max(range.resolution, writtenStep);
  return rootSumSquares(rectangular(accuracy), rectangular(step / 2));
}

/** Standard uncertainty of a reading as it stands in a job, whatever meter function took it. */
export function uncertaintyOf(measured: Measured, meter: Meter, of: MeterFunction): number {
  if (measured.kind !== "number") return 0;
  const { value, resolution: written } = measured;
  const range = rangeFor(meter, of, value);
  if (!range.assumed) return readingUncertainty(value, range, written);
  return readingUncertainty(
    value,
    { ...range, resolution: Math.min(range.resolution, written ?? stepShown(value, range)) },
    written,
  );
}

/** 0.35 cannot stand on a display that steps by 0.1: the step that the digits themselves show. */
function stepShown(value: number, { resolution }: MeterRange): number {
  const steps = value / resolution;
  return Math.abs(steps - Math.round(steps)) < 1e-6 ? resolution : resolution / 10;
}

/** The meter with another step of its smallest ohm range, as the job's notes say. */
export function withOhmStep(meter: Meter, step: number | undefined): Meter {
  if (step === undefined) return meter;
  const smallest = rangeFor(meter, "ohms", 0);
  const own = meter.ranges.some((range) => range.of === "ohms") ? meter : TYPICAL_HANDHELD;
  return {
    name: meter.name,
    ranges: [
      { ...smallest, resolution: step, assumed: false },
      ...own.ranges.filter((range) => range.of === "ohms" && range.upTo > smallest.upTo),
      ...meter.ranges.filter((range) => range.of !== "ohms"),
    ],
  };
}
