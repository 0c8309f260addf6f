import { REST_TABLES } from "../battery/rest-tables";
import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import type { Frame } from "./frame";
import { toUsualBand } from "./running-features";
import { coordinateOf, type Situation } from "./signatures";

/**
 * A battery may be found flat whatever else is wrong: it stood, or it was emptied by what keeps it from being
 * charged. No signature holds such a battery, because a flat one lets nothing else be read.
 */

/** How often for each time that it is not, where it merely is not charged and where something drains it. A judgement, not a count. */
const FOUND_FLAT = { normal: 0.05, high: 0.15 } as const;
/** So far below full a battery is emptier than any that the signatures hold [V], and the spread of what is found below that [V]. */
const EMPTY = 1.1;
const DEPTH = 4;

const REST = coordinateOf("rest");
const RECHARGED_REST = coordinateOf("recharged-rest");
const CRANKING = coordinateOf("cranking");
const RUNNING = [coordinateOf("idle"), coordinateOf("test")];
const LOAD_RESISTANCE = coordinateOf("load-resistance");
/** Volts on the 12 V scale below which a starter or a load test has only shown that the battery is empty. */
export const CARRIED = 6.5;
/** Cranked, a flat battery sags to less; how far is anybody's guess [V below full]. */
const LEAST_SAG = 6.3;
const SAG_RANGE = 6.5;
/** That it cranks the engine all the same, or carries a load, is next to impossible. */
const CARRIES = 0.01;

/** A running machine that lifts the battery to this has charged it; down to the other a flat one may hold it [V]. */
const LIFTED = 13.2;
const HELD = 10.7;

export interface FoundFlat {
  /** The same job without what only shows that the battery is flat. */
  readonly without: Situation;
  /** Log of what such a battery adds, by the draw with the key off. */
  readonly log: Readonly<Record<"normal" | "high", number>>;
}

/** `undefined` where the rested voltage is not that of a flat battery, or was not read. */
export function foundFlat(x: Situation): FoundFlat | undefined {
  const depth = -x[REST]! - EMPTY;
  if (!(depth > 0)) return undefined;
  const without = x.slice();
  const leaveOut = (coordinate: number, density: (value: number) => number) => {
    const value = without[coordinate]!;
    without[coordinate] = Number.NaN;
    return Number.isNaN(value) ? 1 : density(value);
  };
  let density = leaveOut(REST, () => (Math.min(1, 2 * depth) * Math.exp(-depth / DEPTH)) / DEPTH);
  density *= leaveOut(CRANKING, (logSag) => {
    const sag = Math.exp(logSag);
    return sag < LEAST_SAG ? CARRIES : sag / SAG_RANGE;
  });
  // It takes all that a machine in order gives: running, the voltage stays low and says nothing.
  for (const running of RUNNING)
    if (x[running]! < LIFTED) density *= leaveOut(running, (volts) => (volts > HELD ? 1 / (LIFTED - HELD) : CARRIES));
  if (Number.isNaN(x[RECHARGED_REST]!)) density *= leaveOut(LOAD_RESISTANCE, () => CARRIES);
  const log = (odds: number) => Math.log(odds * density);
  return { without, log: { normal: log(FOUND_FLAT.normal), high: log(FOUND_FLAT.high) } };
}

/** What is to be expected of battery and machine once a battery that was found flat is charged. */
export function onceCharged(x: Situation): Situation {
  return foundFlat(x)?.without ?? x;
}

/** Rested voltage at which nothing is left: of lead by its table, of lithium the end of the flat part of its curve [V]. */
function emptyRest({ batteryType, fullRest }: Frame): number {
  return batteryType === "lithium" ? fullRest - EMPTY : REST_TABLES[batteryType].rows[0]![0];
}

/** A battery that was found flat and has neither been charged since nor shown that it has charge. */
export function isFlat(job: Job, frame: Frame): boolean {
  const volts = (id: string) => (numberIn(job, id) ?? Number.NaN) * frame.voltScale;
  if (!(volts("rested-voltage") < emptyRest(frame)) || job.has("load-test-rested")) return false;
  const lifted = ["idle-voltage", "test-voltage"].some((id) => toUsualBand(volts(id), frame) >= LIFTED);
  return !lifted && !(volts("cranking-voltage") >= CARRIED);
}
