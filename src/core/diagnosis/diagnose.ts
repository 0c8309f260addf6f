import type { PartState } from "../judgement/types";
import { entryOf, isReading } from "../readings/catalogue";
import type { Job, Part } from "../readings/types";
import { asWeighed, contradictionsOf, type Contradiction } from "./contradictions";
import { faultOf, labelOfKey, withinSentence, type FaultKey } from "./faults";
import { findingsOf, type Findings } from "./findings";
import { frameOf, type Frame } from "./frame";
import { FAULT_KEYS, sumByFault } from "./hypotheses";
import { leadingOf, partVerdicts, THRESHOLDS, type Leading, type PartVerdict, type Thresholds } from "./part-state";
import { posterior, situationIn } from "./posterior";
import type { Situation } from "./signatures";
import { logStart, SHIPPED_CHANCES, type StartingChances } from "./starting-chances";

export { THRESHOLDS, type PartVerdict, type Thresholds } from "./part-state";

export interface DiagnosisOptions {
  /** Diode checks (and more) of known-good parts of the same number. */
  readonly knownGood?: readonly Job[];
  readonly startingChances?: StartingChances;
  readonly thresholds?: Thresholds;
}

export interface FaultChance {
  readonly fault: FaultKey;
  readonly label: string;
  readonly chance: number;
}

export interface Diagnosis {
  /** Likeliest first; the chances sum to 1. */
  readonly faults: readonly FaultChance[];
  /** Every part, in working order. */
  readonly parts: readonly (PartVerdict & { readonly sentence: string })[];
  /** The part that the verdict names; `none` when "no fault found" leads. */
  readonly verdict: Verdict;
  readonly contradictions: readonly Contradiction[];
  readonly findings: Findings;
  readonly frame: Frame;
  /** Number of readings that were weighed. */
  readonly readings: number;
}

export interface Verdict {
  readonly part: Part | "none";
  readonly state: PartState;
  readonly chance: number;
  readonly sentence: string;
}

/** A job as far as it is weighed: what everything else is told from. */
export interface Weighed {
  /** The job without the readings that cannot be true. */
  readonly kept: Job;
  readonly frame: Frame;
  readonly situation: Situation;
  readonly contradictions: readonly Contradiction[];
  /** One chance a hypothesis, in the order of `HYPOTHESES`. */
  readonly hypotheses: Float64Array;
  /** In the order of `FAULT_KEYS`. */
  readonly chances: Float64Array;
  readonly findings: Findings;
  readonly parts: readonly PartVerdict[];
  readonly leading: Leading;
  readonly readings: number;
}

/** Weighs a job; `undefined` where not a single reading was taken. */
export function weigh(job: Job, options: DiagnosisOptions = {}): Weighed | undefined {
  const readings = countReadings(job);
  return readings === 0 ? undefined : { ...weighAll(job, options), readings };
}

/** As `weigh`, also before the first reading, when only the starting chances speak. */
export function weighAll(job: Job, options: DiagnosisOptions): Weighed {
  const rawFrame = frameOf(job);
  const contradictions = contradictionsOf(job, rawFrame);
  const kept = asWeighed(job, contradictions);
  const frame = kept === job ? rawFrame : frameOf(kept);
  const situation = situationIn(kept, frame);
  const hypotheses = posterior(
    kept,
    logStart(options.startingChances ?? SHIPPED_CHANCES),
    options.knownGood,
    frame,
    situation,
  );
  const chances = sumByFault(hypotheses);
  const findings = findingsOf(kept, frame, options.knownGood);
  const thresholds = options.thresholds ?? THRESHOLDS;
  const parts = partVerdicts(chances, findings, thresholds);
  return {
    kept,
    frame,
    situation,
    contradictions,
    hypotheses,
    chances,
    findings,
    parts,
    leading: leadingOf(chances, parts, thresholds),
    readings: countReadings(job),
  };
}

function countReadings(job: Job): number {
  let count = 0;
  for (const id of job.keys()) {
    const entry = entryOf(id);
    if (entry !== undefined && isReading(entry)) count += 1;
  }
  return count;
}

const LABELS = FAULT_KEYS.map(labelOfKey);

/**
 * Weighs all that was read of one machine: chances of faults, states of parts, contradictions.
 *
 * @param job - Readings and machine data by catalogue id, in any order; what is missing changes nothing
 * @returns `undefined` where not a single reading was taken: no verdict
 */
export function diagnose(job: Job, options: DiagnosisOptions = {}): Diagnosis | undefined {
  const weighed = weigh(job, options);
  return weighed && diagnosisOf(weighed);
}

/** All that is told of a weighed job. */
export function diagnosisOf(weighed: Weighed): Diagnosis {
  const { chances, parts, contradictions, findings, frame, readings } = weighed;
  const order = Array.from(FAULT_KEYS.keys()).sort((a, b) => chances[b]! - chances[a]!);
  return {
    faults: order.map((k) => ({ fault: FAULT_KEYS[k]!, label: LABELS[k]!, chance: chances[k]! })),
    parts: parts.map((p) => ({ ...p, sentence: partSentence(p) })),
    verdict: verdictOf(weighed),
    contradictions,
    findings,
    frame,
    readings,
  };
}

/** The verdict alone, for long tables: the same as in `diagnose`. */
export function verdictFor(job: Job, options: DiagnosisOptions = {}): Verdict | undefined {
  const weighed = weigh(job, options);
  return weighed ? verdictOf(weighed) : undefined;
}

export function verdictOf({ leading }: Weighed): Verdict {
  const { part, state, chance, verdict } = leading;
  if (verdict) return { part, state, chance, sentence: partSentence(verdict) };
  const sentence =
    state === "serviceable"
      ? `No fault found (${percent(chance)}).`
      : `No fault found so far (${percent(chance)}), but not all checks are done.`;
  return { part, state, chance, sentence };
}

/** A part's state in one sentence. */
export function partSentence({ part, state, chance, fault, proof }: PartVerdict): string {
  const name = part.charAt(0).toUpperCase() + part.slice(1);
  const cause = withinSentence(faultOf(fault).label);
  switch (state) {
    case "faulty":
      return `${name}: faulty (${percent(chance)}), ${cause}${proof ? `; ${proof.words}` : ""}.`;
    case "suspect":
      return `${name}: suspect (${percent(chance)}), ${cause}; ${chance >= THRESHOLDS.faulty ? "no check of the part itself shows it yet" : "not proven"}.`;
    case "serviceable":
      return `${name}: serviceable; its own checks are in order.`;
    case "unproven":
      return `${name}: unproven; not all of its own checks are done and in order.`;
  }
}

export function percent(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole === 100) return "over 99 %";
  if (whole === 0) return "under 1 %";
  return `${whole} %`;
}
