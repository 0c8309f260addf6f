import type { Job } from "../readings/types";
import { batteryFindings } from "./battery-findings";
import type { Finding, Findings } from "./finding";
import type { Frame } from "./frame";
import { rectifierFindings, runningFindings } from "./regulator-findings";
import { fieldFindings, groundFindings, noLoadFindings, windingFindings } from "./stator-findings";
import { wiringFindings } from "./wiring-findings";

export type { Finding, Findings } from "./finding";

/** Everything that the job's checks show for themselves, part by part. */
export function findingsOf(job: Job, frame: Frame, knownGood: readonly Job[] = []): Findings {
  const found = new Set<Finding>();
  rectifierFindings(job, knownGood, found);
  runningFindings(job, frame, found);
  windingFindings(job, frame, found);
  noLoadFindings(job, frame, found);
  groundFindings(job, frame, found);
  fieldFindings(job, frame, found);
  batteryFindings(job, frame, found);
  wiringFindings(job, frame, found);
  return found;
}
