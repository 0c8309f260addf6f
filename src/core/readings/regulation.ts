import { choiceIn } from "./catalogue";
import type { Job } from "./types";

/**
 * A diode alone, as small half-wave machines have it, charges a battery as well: the voltage goes where battery and
 * speed take it.
 *
 * @source common-practice
 */
export function isUnregulated(job: Job): boolean {
  const regulator = choiceIn(job, "regulator-kind");
  return regulator === "none" || (regulator === undefined && choiceIn(job, "alternator-kind") === "half-wave");
}
