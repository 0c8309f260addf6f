import { judge, unsure, type JudgeOptions } from "../judgement/judge";
import type { Judged, Limit } from "../judgement/types";
import { choiceIn, quantityById } from "../readings/catalogue";
import { PHASES } from "../readings/entries";
import type { Job } from "../readings/types";
import { worstOf } from "./worst-of";

/**
 * What an ohmmeter must show from a winding to bare engine metal [Ω]. Dirt and damp pull a good
 * winding below the insulation minimum without a fault: from 1 to 5 MΩ it is dried and read again.
 */
export const GROUND_LIMIT: Limit = {
  low: 5e6,
  lenient: { low: 1e6 },
  origin: { from: "published", source: "ieee43", words: "IEEE 43: 5 MΩ; below 1 MΩ, common practice, it is grounded" },
};

export interface GroundJudged {
  /** The worst of what was read; one grounded terminal grounds them all. */
  readonly state: Judged["state"];
  readonly reason: string;
  readonly readings: ReadonlyMap<string, Judged>;
}

/**
 * A half-wave winding ends on the iron: it reads its own ohms to ground, and that is no fault.
 *
 * @source common-practice
 */
export function groundedByDesign(job: Job): Judged | undefined {
  return choiceIn(job, "alternator-kind") === "half-wave"
    ? unsure("A half-wave winding ends on the iron by design: this says nothing.")
    : undefined;
}

/** Judges the windings of a job against ground, read with an ohmmeter. */
export function judgeGround(job: Job, options: JudgeOptions = {}): GroundJudged {
  const readings = new Map<string, Judged>();
  for (const phase of PHASES) {
    const id = `ground-${phase}`;
    const measured = job.get(id);
    if (measured) readings.set(id, groundedByDesign(job) ?? judge(quantityById(id), measured, GROUND_LIMIT, options));
  }
  const worst = worstOf([...readings.values()]);
  return { state: worst?.state ?? "not read", reason: worst?.reason ?? "Winding to ground was not read.", readings };
}
