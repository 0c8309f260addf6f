import { START_PERIODS, type PeriodStart, type Stepper } from "./stepper";

/** Longest rhythm looked for [periods]. */
const LONGEST_RHYTHM = 4;
/** Currents repeat within this share of the largest, which counts as 1 A at least; the filter within these volts. */
const SAME_SHARE = 1e-3;
const SAME_VOLTS = 1e-4;

/**
 * Runs from the start until the circuit repeats itself, with the regulator at work or at rest.
 *
 * @param most - Periods to run at most
 * @returns Periods of the rhythm, 0 where none was found, `null` where a step has no solution
 */
export function findRhythm(stepper: Stepper, most: number): number | null {
  const starts: PeriodStart[] = [];
  for (let period = 1; period <= most; period++) {
    if (Number.isNaN(stepper.run())) return null;
    if (period < START_PERIODS) continue;
    const now = stepper.periodStart();
    for (let back = 1; back <= LONGEST_RHYTHM && back <= starts.length; back++) {
      if (same(starts[starts.length - back]!, now)) return back;
    }
    starts.push(now);
  }
  return 0;
}

function same(a: PeriodStart, b: PeriodStart): boolean {
  if (a.over !== b.over || Math.abs(a.filtered - b.filtered) > SAME_VOLTS) return false;
  let size = 1;
  let change = 0;
  for (let k = 0; k < a.coilAmps.length; k++) {
    size = Math.max(size, Math.abs(a.coilAmps[k]!));
    change = Math.max(change, Math.abs(a.coilAmps[k]! - b.coilAmps[k]!));
  }
  return change <= SAME_SHARE * size && a.latches.every((latch, k) => latch === b.latches[k]);
}
