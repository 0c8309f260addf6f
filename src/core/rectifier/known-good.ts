import { mean as average, sampleStandardDeviation } from "simple-statistics";
import { fail, ok, type Result } from "../result";
import { twoSidedFactor } from "./tolerance-factor";

export interface KnownGoodOptions {
  /** Share of good parts that the interval shall hold [1]; 0.95 by default. */
  readonly coverage?: number;
  /** Chance that it does [1]; 0.95 by default. */
  readonly confidence?: number;
  /** Half-width of the meter's own uncertainty, unit of the readings: the interval is never narrower. */
  readonly meter: number;
  /** One step of the display, unit of the readings: readings that agree may still differ by it. */
  readonly step: number;
  /** How far good parts may lie apart while fewer than three were read, unit of the readings. */
  readonly spread: number;
}

/** What good parts of one number read, for one reading. */
export interface KnownGood {
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly mean: number;
  /** Standard deviation between the parts; absent for one part. */
  readonly deviation?: number;
  /** Factor of the tolerance interval; absent while parts are compared reading by reading. */
  readonly factor?: number;
  readonly words: string;
}

/** From this many parts on, the spread between good parts is known from the parts themselves. */
const ENOUGH = 3;

/**
 * What a good part reads, from the shop's own readings of good parts of the same number. One or two
 * are compared reading by reading with a stated spread; from three on a two-sided tolerance interval
 * with the exact factor. The display's step counts as spread, so that three identical readings do
 * not make a width of zero, and the interval is never narrower than the meter's own uncertainty.
 *
 * @param readings - One reading a part, all of the same quantity and unit
 * @param options - Coverage, confidence; meter, step and spread in the readings' unit
 * @returns The interval with its count; `missing` without a reading, `outside-range` for the shares
 * @source iso16269-6 two-sided interval, unknown mean and deviation; jcgm100 F.2.2.1 (display step)
 */
export function knownGood(readings: readonly number[], options: KnownGoodOptions): Result<KnownGood> {
  const count = readings.length;
  if (count === 0)
    return fail({ code: "missing", what: "known-good readings", expected: "at least one reading of a good part" });
  const mean = average([...readings]);
  const deviation = count > 1 ? sampleStandardDeviation([...readings]) : undefined;
  const { coverage = 0.95, confidence = 0.95 } = options;
  if (count < ENOUGH) {
    const spread = Math.max(options.spread, options.meter);
    return ok({
      low: Math.min(...readings) - spread,
      high: Math.max(...readings) + spread,
      count,
      mean,
      ...(deviation === undefined ? {} : { deviation }),
      words:
        count === 1 ? "reading by reading against 1 known-good part" : "reading by reading against 2 known-good parts",
    });
  }
  const factor = twoSidedFactor(count, coverage, confidence);
  if (!factor.ok) return factor;
  const half = Math.max(factor.value * Math.hypot(deviation ?? 0, options.step / Math.sqrt(12)), options.meter);
  return ok({
    low: mean - half,
    high: mean + half,
    count,
    mean,
    deviation: deviation ?? 0,
    factor: factor.value,
    words: `tolerance interval of ${count} known-good parts (${percent(coverage)} of parts, ${percent(confidence)} confidence)`,
  });
}

function percent(share: number): string {
  return `${Number((share * 100).toFixed(2))} %`;
}
