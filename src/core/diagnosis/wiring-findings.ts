import { numberIn } from "../readings/catalogue";
import { PHASE_DROP_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import type { Finding } from "./finding";
import type { Frame } from "./frame";

/** Drop of a sound run at most, and how far above it no current is asked for any more, 12 V scale [V]. */
export const DROP_LIMITS = { "bplus-drop": 0.4, "ground-drop": 0.25 } as const;
const DOUBT = 0.35;

export const RUN_STATES = ["sound", "resists"] as const;
/** Spread of the border between them [V], and how often a sound run is read so all the same: a probe beside the terminal. */
const RUN_BORDER = 0.15;
const SOUND_DROPS = 0.01;

/** A run that drops far too much is known by it; how much it drops is weighed with the other readings. */
export function runEvidence(job: Job, frame: Frame, run: keyof typeof DROP_LIMITS): readonly number[] | undefined {
  const over = Math.abs(numberIn(job, run) ?? 0) * frame.voltScale - DROP_LIMITS[run] - DOUBT;
  return over <= 0 ? undefined : [Math.max(-over / RUN_BORDER, Math.log(SOUND_DROPS)), 0];
}

/** What the runs, the phase connectors and the consumers show. */
export function wiringFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  runFindings(job, frame, "bplus-drop", found);
  runFindings(job, frame, "ground-drop", found);
  if (PHASE_DROP_IDS.some((id) => (numberIn(job, id) ?? 0) * frame.voltScale > 0.8)) found.add("connector-drop-high");
  const draw = numberIn(job, "key-off-draw");
  if (draw !== undefined) {
    if (draw > frame.keyOffLimit * (frame.keyOffLimitKnown ? 1.1 : 2.5)) found.add("draw-high");
    else if (draw <= frame.keyOffLimit) found.add("draw-normal");
  }
  const keyOn = numberIn(job, "key-on-load");
  if (keyOn !== undefined) consumerFindings(keyOn, frame, found);
}

function runFindings(job: Job, { voltScale }: Frame, run: keyof typeof DROP_LIMITS, found: Set<Finding>): void {
  const drop = numberIn(job, run);
  if (drop === undefined) return;
  const current = numberIn(job, "drop-current");
  const limit = DROP_LIMITS[run];
  const volts = Math.abs(drop) * voltScale;
  // A run is judged at its current: 60 mΩ is several times what a sound run of this size has.
  const ohms = current !== undefined && current > 2 ? volts / current : undefined;
  if (volts > limit + DOUBT || (ohms !== undefined && ohms > 0.05 && volts > limit)) found.add(`${run}-high`);
  else if (volts <= limit && (current === undefined || current > 2)) found.add(`${run}-normal`);
}

/** @param keyOn - Current with the key on, the engine off [A] */
function consumerFindings(keyOn: number, { load, ratedKnown, ratedAmps, voltScale }: Frame, found: Set<Finding>): void {
  if (load !== undefined) {
    if (keyOn > 1.3 * load + 1) found.add("key-on-high");
    else if (keyOn < 1.15 * load + 0.5) found.add("key-on-normal");
  } else if (ratedKnown) {
    if (keyOn / voltScale > 0.95 * ratedAmps) found.add("key-on-high");
    else if (keyOn / voltScale < 0.7 * ratedAmps) found.add("key-on-normal");
  }
}
