import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { logNormal, logSum } from "./gaussian";

export const CELL_STATES = ["alike", "one gone", "one weak"] as const;

/** Without a hydrometer a weak cell counts as a sulfated battery. */
const UNSEEN = [0, 0, Math.log(0.01)];
/** Fewer cells say little of the others. */
const ENOUGH = 3;
/** Spread between the cells of a sound battery, one standard deviation, and how often acid not mixed yet passes for more. */
const SOUND = 0.012;
const UNMIXED = 0.004;
/** Spread that a bad cell makes. */
const BAD = { centre: 0.12, spread: 0.05 };

/** Specific gravity of the cells as read, first to last. */
export function gravitiesOf(job: Job): readonly number[] {
  return [1, 2, 3, 4, 5, 6].map((c) => numberIn(job, `gravity-${c}`)).filter((g): g is number => g !== undefined);
}

/** The spread between cells: sound ones are alike whatever their charge, a bad one stays behind the others. */
export function gravityEvidence(job: Job): readonly number[] {
  const cells = gravitiesOf(job);
  if (cells.length < ENOUGH) return UNSEEN;
  const spread = Math.max(...cells) - Math.min(...cells);
  const bad = logNormal(spread - BAD.centre, BAD.spread);
  const sound = logSum([Math.log(2 * (1 - UNMIXED)) + logNormal(spread, SOUND), Math.log(UNMIXED) + bad]);
  return [sound, bad, bad];
}
