import { COLDEST_LOAD_TEST, loadLimit } from "../battery/load-limit";
import { choiceIn, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import type { Finding } from "./finding";
import type { Frame } from "./frame";
import { gravitiesOf } from "./gravity-evidence";

/** What the battery shows at rest, while cranking and under load. */
export function batteryFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const s = frame.voltScale;
  const rest = numberIn(job, "rested-voltage");
  const before = numberIn(job, "load-test-rested");
  const recharged = choiceIn(job, "load-test-recharged") === "yes";
  // Without a charge in between, the rest before the load test is the same rest.
  const charged = recharged ? before : (rest ?? before);
  const missing = (v: number) => {
    const short = frame.fullRest - v * s;
    // A lithium battery is flat from 1.3 V below full and cut off; a cell of it is 3.3 V.
    return frame.batteryType === "lithium"
      ? short > 2.5 && short < 4.6
      : short > (recharged ? 1.3 : 1.75) && short < 3.2;
  };
  if (charged !== undefined && missing(charged) && (recharged || hasWorked(job, s))) found.add("cell-missing");
  const gravities = gravitiesOf(job);
  if (gravities.length >= 3 && Math.max(...gravities) - Math.min(...gravities) > 0.1) found.add("cell-behind");
  const soundAt = frame.fullRest - 0.25;
  if (
    ((rest !== undefined && rest * s >= soundAt) || (recharged && before !== undefined && before * s >= soundAt)) &&
    !found.has("cell-missing") &&
    !found.has("cell-behind")
  )
    found.add("rest-sound");
  const crank = numberIn(job, "cranking-voltage");
  const cold = (numberIn(job, "battery-temperature") ?? 20) < 0;
  const notEmpty = rest !== undefined && rest * s > frame.fullRest - 0.65;
  if (crank !== undefined && notEmpty && crank * s < (cold ? 7 : 8)) found.add("cranking-collapses");
  const end = numberIn(job, "load-test-voltage");
  const amps = numberIn(job, "load-test-current");
  const start = before ?? rest;
  if (end === undefined || amps === undefined || amps <= 0 || start === undefined) return;
  const limit = loadLimit(Math.min(60, Math.max(COLDEST_LOAD_TEST, numberIn(job, "battery-temperature") ?? 21)));
  const least = limit.ok ? limit.value : 9.6;
  const halfCca = amps / (frame.cca / 2);
  const fair = halfCca > 0.75 && halfCca < 1.35;
  const charge75 = start * s >= frame.fullRest - 0.22;
  const ohmsTimesCca = (((start - end) * s) / amps) * frame.cca;
  if (fair && charge75 && end * s < least - 0.1) found.add("load-test-fails");
  // The rating itself leaves 5.4 V at full CCA in the cold: nine is far beyond what low charge explains.
  else if (ohmsTimesCca > 9) found.add("load-test-fails");
  else if (fair && charge75 && end * s >= least) found.add("load-test-passes");
}

/** Volts on the 12 V scale below which a starter or a load test has only shown that the battery is empty. */
const CARRIED = 6.5;

/**
 * Whether the battery has cranked the engine, carried the load or been run with: what a shorted cell can do
 * and a battery that is merely flat cannot. At rest alone both read the same.
 */
function hasWorked(job: Job, scale: number): boolean {
  const carried = (id: string) => (numberIn(job, id) ?? 0) * scale > CARRIED;
  return carried("cranking-voltage") || carried("load-test-voltage") || carried("test-voltage");
}
