import { proveRepair, type Proof } from "../core/diagnosis/proof";
import { limitOptions, type AssessOptions } from "./assess";
import type { OpenJob } from "./open-job";

/** What the readings after the repair prove; `undefined` until there is one before it and one after it. */
export function repairOf({ before, after }: OpenJob, options: AssessOptions): Proof | undefined {
  return proveRepair(before.job, after.job, limitOptions(options));
}
