import type { Job } from "../readings/types";
import { batteryFindings } from "./battery-findings";
import type { Finding, Findings } from "./finding";
import type { Frame } from "./frame";
import { rectifierFindings, runningFindings } from "./regulator-findings";
import { fieldFindings, groundFindings, noLoadFindings, windingFindings } from "./stator-findings";
import { wiringFindings } from "./wiring-findings";

export type { Finding, Findings } from "./finding";

type FindingsOf = (job: Job, frame: Frame, found: Set<Finding>) => void;
const BY_PART: readonly FindingsOf[] = [
  runningFindings,
  windingFindings,
  noLoadFindings,
  groundFindings,
  fieldFindings,
  batteryFindings,
  wiringFindings,
];

/** Everything that the job's checks show for themselves, part by part. */
export function findingsOf(job: Job, frame: Frame, knownGood: readonly Job[] = []): Findings {
  const found = new Set<Finding>();
  rectifierFindings(job, knownGood, found);
  for (const addFindings of BY_PART) addFindings(job, frame, found);
  return found;
}
