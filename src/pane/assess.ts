import { nextChecks, type NextCheck } from "../core/diagnosis/next-check";
import { explain, type Explained } from "../core/diagnosis/why";
import type { Judged } from "../core/judgement/types";
import type { Job, Measured } from "../core/readings/types";

/** All that the pane says of a job. */
export interface Assessment {
  /** Missing while not a single reading was taken. */
  readonly explained: Explained | undefined;
  /** Best first, also before the first reading. */
  readonly nextChecks: readonly NextCheck[];
  readonly judged: ReadonlyMap<string, Judged>;
}

export interface AssessOptions {
  readonly knownGood: readonly Job[];
}

export function assess(job: Job, options: AssessOptions): Assessment {
  const explained = explain(job, options);
  return {
    explained,
    nextChecks: explained?.nextChecks ?? nextChecks(job, options),
    judged: new Map(),
  };
}

/** How one reading would be judged in this job if it were `measured`. */
export function previewOf(_job: Job, _id: string, _measured: Measured, _options: AssessOptions): Judged | undefined {
  return undefined;
}
