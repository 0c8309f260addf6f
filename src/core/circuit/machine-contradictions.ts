import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { fail, ok, type Result } from "../result";

/** No battery rests above this at 12 V nominal, surface charge included [V]. */
const MOST_AT_REST = 16;

/** Two ends of one thing: lowest and highest as a plate gives them. */
const ENDS = [
  ["regulated-min", "regulated-max", "regulated voltage", "V"],
  ["stator-ohms-min", "stator-ohms-max", "winding resistance", "Ω"],
] as const;

/**
 * Machine data of which each is possible alone, but not all together: nothing is computed from them,
 * since nobody can say which is the wrong one.
 *
 * @param job - Machine data and readings by catalogue id
 * @returns The job as it is, or `refused` with what contradicts what
 */
export function withoutContradiction(job: Job): Result<Job> {
  for (const [lowest, highest, what, unit] of ENDS) {
    const low = numberIn(job, lowest);
    const high = numberIn(job, highest);
    if (low !== undefined && high !== undefined && low > high) {
      return refused(`the lowest ${what}, ${low} ${unit}, is above the highest, ${high} ${unit}`, "check both");
    }
  }
  const poles = numberIn(job, "poles");
  if (poles !== undefined && poles % 2 !== 0) {
    return refused(`poles come in pairs, and ${poles} were given`, "enter an even number");
  }
  const rested = numberIn(job, "rested-voltage");
  const nominal = numberIn(job, "battery-nominal") ?? 12;
  if (rested !== undefined && rested > (MOST_AT_REST * nominal) / 12) {
    return refused(`${rested} V at rest is no ${nominal} V battery`, "check its nominal voltage and the reading");
  }
  return ok(job);
}

function refused(why: string, instead: string): Result<Job> {
  return fail({ code: "refused", what: "machine data", why, instead });
}
