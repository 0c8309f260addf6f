import { COLDEST_LOAD_TEST, loadLimit } from "../battery/load-limit";
import { choiceIn, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import type { Finding } from "./finding";
import { CARRIED } from "./flat-battery";
import type { Frame } from "./frame";
import { gravitiesOf } from "./gravity-evidence";
import { isCold } from "./running-features";

/** A rested battery is sound down to this far below a full one [V]. */
export const REST_SHORT = 0.25;

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
  const soundAt = frame.fullRest - REST_SHORT;
  if (
    ((rest !== undefined && rest * s >= soundAt) || (recharged && before !== undefined && before * s >= soundAt)) &&
    !found.has("cell-missing") &&
    !found.has("cell-behind")
  )
    found.add("rest-sound");
  const crank = numberIn(job, "cranking-voltage");
  const notEmpty = rest !== undefined && rest * s > frame.fullRest - 0.65;
  if (crank !== undefined && notEmpty && crank * s < (isCold(job) ? 7 : 8)) found.add("cranking-collapses");
  const loaded = loadTestOf(job, frame);
  if (!loaded) return;
  const { fair, short } = loaded;
  if (fair && short > LEAST_SHORT) found.add("load-test-fails");
  else if (loaded.ohmsTimesCca > COLLAPSED) found.add("load-test-fails");
  else if (fair && short <= 0) found.add("load-test-passes");
}

/** Resistance times cranking amps: the rating itself leaves 5.4 V at full CCA in the cold; this is far beyond low charge [V]. */
const COLLAPSED = 9;
/** A load test that ends less below what it may is as good as passed [V]. */
const LEAST_SHORT = 0.1;

interface LoadTest {
  /** Half the cold cranking amps, on a battery with three quarters of its charge. */
  readonly fair: boolean;
  /** How far the voltage ended below the least that a good battery keeps, 12 V scale [V]. */
  readonly short: number;
  readonly ohmsTimesCca: number;
}

function loadTestOf(job: Job, frame: Frame): LoadTest | undefined {
  const s = frame.voltScale;
  const end = numberIn(job, "load-test-voltage");
  const amps = numberIn(job, "load-test-current");
  const start = numberIn(job, "load-test-rested") ?? numberIn(job, "rested-voltage");
  if (end === undefined || amps === undefined || amps <= 0 || start === undefined) return undefined;
  const limit = loadLimit(Math.min(60, Math.max(COLDEST_LOAD_TEST, numberIn(job, "battery-temperature") ?? 21)));
  const least = limit.ok ? limit.value : 9.6;
  const halfCca = amps / (frame.cca / 2);
  const fair = halfCca > 0.75 && halfCca < 1.35 && start * s >= frame.fullRest - 0.22;
  return { fair, short: least - end * s, ohmsTimesCca: (((start - end) * s) / amps) * frame.cca };
}

/** A load test that ends low on a battery that was not charged, or under another load, has shown nothing. */
export function isLoadTestUnfair(job: Job, frame: Frame): boolean {
  const loaded = loadTestOf(job, frame);
  return loaded !== undefined && !loaded.fair && loaded.short > 0 && choiceIn(job, "load-test-recharged") !== "yes";
}

export const LOAD_STATES = ["carries", "fails"] as const;
/** Spread of the border between them [V], and how often a good battery fails all the same: a loose clamp, a wrong rating. */
const LOAD_BORDER = 0.2;
const GOOD_FAILS = 0.005;

/** A fair load test that fails is what a weak battery is known by; one that passes is weighed with the other readings. */
export function loadEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  const loaded = loadTestOf(job, frame);
  if (!loaded?.fair || !job.has("battery-cca") || loaded.short <= LEAST_SHORT) return undefined;
  return [Math.max((LEAST_SHORT - loaded.short) / LOAD_BORDER, Math.log(GOOD_FAILS)), 0];
}

/**
 * Whether the battery has cranked the engine, carried the load or been run with: what a shorted cell can do
 * and a battery that is merely flat cannot. At rest alone both read the same.
 */
function hasWorked(job: Job, scale: number): boolean {
  const carried = (id: string) => (numberIn(job, id) ?? 0) * scale > CARRIED;
  return carried("cranking-voltage") || carried("load-test-voltage") || carried("test-voltage");
}
