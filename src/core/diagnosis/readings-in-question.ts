import { entryOf, isReading, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { REST_SHORT } from "./battery-findings";
import type { Contradiction } from "./contradiction";
import type { Found } from "./finding";
import type { Frame } from "./frame";
import { OVER_REGULATED } from "./regulator-findings";
import { isCold, risesAtSpeed } from "./running-features";
import { DROP_LIMITS } from "./wiring-findings";

/** Whether a reading is not in order by itself; its value is given, and on the 12 V scale. */
type IsOdd = (volts: number, frame: Frame, found: Found, job: Job) => boolean;

/** Cranking voltage below which the check of the reading fails it, and in the cold [V]: US Army TM 9-2320-211-20; common practice. */
const CRANKING = { least: 9, cold: 8 };

const exceeds =
  (run: keyof typeof DROP_LIMITS): IsOdd =>
  (volts) =>
    Math.abs(volts) > DROP_LIMITS[run];

const ODD: Readonly<Record<string, IsOdd>> = {
  "load-test-rested": (volts, { fullRest }, found) => volts < fullRest - REST_SHORT && !found.has("load-test-passes"),
  "cranking-voltage": (volts, _, __, job) => volts < (isCold(job) ? CRANKING.cold : CRANKING.least),
  "idle-voltage": (volts, { regulatedMax }) => volts > regulatedMax + OVER_REGULATED,
  "test-voltage": (_, frame, found, job) =>
    !found.has("voltage-in-band") && !(frame.unregulated && risesAtSpeed(job, frame)),
  "bplus-drop": exceeds("bplus-drop"),
  "ground-drop": exceeds("ground-drop"),
  "key-off-draw": (_, { keyOffLimitKnown }, found) => keyOffLimitKnown && !found.has("draw-normal"),
  "key-on-load": (_, { load }, found) => load !== undefined && !found.has("key-on-normal"),
};
const IDS = Object.keys(ODD);
const NONE: readonly string[] = [];

/**
 * Readings that are out of order by themselves, or cannot be true and are to be taken again. They prove no fault, but
 * while one of them stands a machine is not in order either, however likely it was beforehand.
 *
 * @param kept - The job as it is weighed
 * @returns Catalogue ids
 */
export function readingsInQuestion(
  kept: Job,
  frame: Frame,
  found: Found,
  contradictions: readonly Contradiction[],
): readonly string[] {
  let odd: string[] | undefined;
  for (const { setAside } of contradictions)
    for (const id of setAside) {
      const entry = entryOf(id);
      if (entry !== undefined && isReading(entry) && !odd?.includes(id)) (odd ??= []).push(id);
    }
  for (const id of IDS) {
    const value = numberIn(kept, id);
    if (value !== undefined && ODD[id]!(value * frame.voltScale, frame, found, kept)) (odd ??= []).push(id);
  }
  return odd ?? NONE;
}
