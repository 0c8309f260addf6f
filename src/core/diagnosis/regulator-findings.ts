import { numberIn } from "../readings/catalogue";
import { LOADED_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import { diodeCheckTaken, judgeRectifier } from "../rectifier/job";
import type { Finding } from "./finding";
import type { Frame } from "./frame";
import { noLoadReadings } from "./no-load-evidence";
import { risesAtSpeed } from "./running-features";

/** What the unplugged regulator-rectifier shows: devices, B+ to ground, terminals to case. */
export function rectifierFindings(job: Job, knownGood: readonly Job[], found: Set<Finding>): void {
  const checked = diodeCheckTaken(job);
  if (!checked && !OTHER_UNIT_READINGS.some((id) => job.has(id))) return;
  const { diodes, outputShort, caseLeakage } = judgeRectifier(job, { knownGood });
  if (outputShort.state === "faulty" || caseLeakage.state === "faulty") found.add("unit-leaks");
  if (!checked) return;
  for (const finding of diodes.findings) {
    if (finding.weight !== "faulty") continue;
    if (finding.state === "open") found.add(finding.bank === undefined ? "leg-open" : "device-open");
    else found.add("device-shorted");
  }
  if (diodes.state === "serviceable") found.add("devices-conduct-and-block");
}

const OTHER_UNIT_READINGS = ["output-to-ground", "output-to-ground-swapped", "case-leakage"];

/** Above the regulated limit by more: a meter of ±(0.5 % + 2 counts) is 0.1 V off at 15 V, and a cold machine may sit 0.1 V higher [V]. */
export const OVER_REGULATED = 0.12;

/** What the running machine shows: voltage, current, ripple, AC under load. */
export function runningFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const s = frame.voltScale;
  const test = numberIn(job, "test-voltage");
  if (test !== undefined) {
    const v = test * s;
    if (v > frame.regulatedMax + OVER_REGULATED) found.add("over-voltage");
    else if (v >= frame.regulatedMin - 0.1) found.add("voltage-in-band");
    else if (v < frame.regulatedMin - 0.25 && !(frame.unregulated && risesAtSpeed(job, frame)))
      found.add("no-output-at-speed");
  }
  const output = numberIn(job, "drop-current");
  const bplus = numberIn(job, "bplus-drop");
  const little = Math.max(0.6, 0.03 * frame.ratedAmps);
  // Without current there is no drop: a run that shows none carries nothing.
  const charge = numberIn(job, "battery-current");
  const load = numberIn(job, "key-on-load") ?? frame.load;
  const batteryCarriesAll = charge !== undefined && load !== undefined && load > 2 && charge < -0.8 * load;
  const silent =
    output === undefined ? batteryCarriesAll || (bplus !== undefined && Math.abs(bplus) < 0.012) : output <= little;
  if (silent) found.add("nothing-leaves-regulator");
  if (charge !== undefined && charge / s > 0.02 * frame.ratedAmps) found.add("charges");
  // Where the voltage was not read, a battery that discharges at speed says the same.
  if (test === undefined && charge !== undefined && charge / s < -0.02 * frame.ratedAmps - 0.3)
    found.add("no-output-at-speed");
  const ripple = numberIn(job, "battery-ripple");
  if (ripple !== undefined && ripple * s < 0.06) found.add("ripple-small");
  if (LOADED_IDS.every((id) => numberIn(job, id) !== undefined)) loadedFindings(job, frame, found);
}

/** What the AC of all pairs shows, the stator plugged in. */
function loadedFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const sorted = LOADED_IDS.map((id) => numberIn(job, id)! * frame.voltScale).sort((a, b) => b - a);
  const [high, middle, low] = sorted as [number, number, number];
  if (high < 6) found.add("loaded-all-held-down");
  // One phase tied to one side: the other pair carries a full bridge's voltage, two pairs less.
  else if (high < 16 && middle / high < 0.86 && low / high > 0.6) found.add("loaded-phase-held-down");
  else if (low / high > 0.9) found.add("loaded-even");
  const unplugged = expectedNoLoad(job, frame);
  if (unplugged !== undefined && low > 0.75 * unplugged && low / high > 0.95) found.add("loaded-as-unplugged");
  // A bridge that conducts holds the AC at 0.82 of battery voltage and two devices: 13 V.
  if (low > 20 && low / high > 0.9) found.add("loaded-not-held");
}

/** Line-to-line AC that the unplugged stator gives at the test speed, read or from the plate [V]. */
function expectedNoLoad(job: Job, frame: Frame): number | undefined {
  const testRpm = frame.testRpm;
  if (testRpm === undefined) return undefined;
  const read = noLoadReadings(job);
  const values = read?.pairs.filter((v): v is number => v !== undefined) ?? [];
  if (read?.rpm !== undefined && read.rpm > 0 && values.length > 0)
    return (values.reduce((a, b) => a + b, 0) / values.length / read.rpm) * testRpm * frame.voltScale;
  return frame.emfPerKrpm === undefined ? undefined : (frame.emfPerKrpm * testRpm * frame.voltScale) / 1000;
}
