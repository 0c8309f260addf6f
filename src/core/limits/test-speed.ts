import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";

/** Running voltage is commonly quoted from here on [rpm]. */
const USUAL = 2000;
/** A fast engine regulates from a higher speed on, a slow one from a lower: shares of its rated speed, common practice. */
const LEAST_SHARE = 0.4;
const MOST_SHARE = 0.5;

/**
 * Speed from which on a running voltage is judged as one at test speed: at idle the voltage depends on the load, and
 * a machine in order may be below its band.
 *
 * @returns Engine speed [rpm]
 */
export function judgedFrom(job: Job): number {
  const rated = numberIn(job, "rated-output-rpm");
  return rated === undefined ? USUAL : Math.min(Math.max(USUAL, LEAST_SHARE * rated), MOST_SHARE * rated);
}

/** Whether the readings at test speed were taken below the speed from which on they are judged; not where none was noted. */
export function isBelowTestSpeed(job: Job): boolean {
  const rpm = numberIn(job, "test-rpm");
  return rpm !== undefined && rpm < judgedFrom(job);
}
