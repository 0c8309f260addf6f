import type { PartState } from "../judgement/types";
import { entryOf, isReading } from "../readings/catalogue";
import type { Job, Part } from "../readings/types";
import { once } from "../same-again";
import { label } from "./contradiction";
import { asWeighed, contradictionsOf, type Contradiction } from "./contradictions";
import { openChecks } from "./direct-checks";
import { faultOf, labelOfKey, withinSentence, type FaultKey } from "./faults";
import { findingsOf, type Findings } from "./findings";
import { frameOf, type Frame } from "./frame";
import { FAULT_KEYS, sumByFault } from "./hypotheses";
import {
  barsFor,
  barsFrom,
  HEALTHY,
  leadingOf,
  partVerdicts,
  THRESHOLDS,
  type Bars,
  type Leading,
  type PartVerdict,
  type StartingBars,
  type Thresholds,
} from "./part-state";
import { posterior, situationIn, startOf } from "./posterior";
import { readingsInQuestion } from "./readings-in-question";
import type { Situation } from "./signatures";
import { logStart, SHIPPED_CHANCES, type StartingChances } from "./starting-chances";
import { sentenceCase } from "../sentence-case";

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
  /** Readings that are not in order by themselves, or were set aside: catalogue ids. */
  readonly inQuestion: readonly string[];
  readonly bars: Bars;
  readonly parts: readonly PartVerdict[];
  readonly leading: Leading;
}

/** Weighs a job; `undefined` where not a single reading was taken. */
export function weigh(job: Job, options: DiagnosisOptions = {}): Weighed | undefined {
  return hasReading(job) ? weighAll(job, options) : undefined;
}

/** As `weigh`, for one question alone: nothing of it is remembered. */
export function weighInPassing(job: Job, options: DiagnosisOptions = {}): Weighed | undefined {
  return hasReading(job) ? weighAnew({ job, options }) : undefined;
}

/** As `weigh`, also before the first reading, when only the starting chances speak. */
export function weighAll(job: Job, options: DiagnosisOptions): Weighed {
  return lastWeighed({ job, options });
}

/** Verdict, causes, evidence and next check of one job are told one after another. */
const lastWeighed = once(weighAnew, (one, other) => one.job === other.job && one.options === other.options);

function weighAnew({ job, options }: { readonly job: Job; readonly options: DiagnosisOptions }): Weighed {
  const rawFrame = frameOf(job);
  const contradictions = contradictionsOf(job, rawFrame);
  const kept = asWeighed(job, contradictions);
  const frame = kept === job ? rawFrame : frameOf(kept);
  const situation = situationIn(kept, frame);
  const { startingChances = SHIPPED_CHANCES, thresholds = THRESHOLDS } = options;
  const hypotheses = posterior(kept, logStart(startingChances), options.knownGood, frame, situation);
  const chances = sumByFault(hypotheses);
  const findings = findingsOf(kept, frame, options.knownGood);
  const inQuestion = readingsInQuestion(kept, frame, findings, contradictions);
  const bars = barsFor(thresholds, barsOf(startingChances), hypotheses, chances[HEALTHY]!, inQuestion.length > 0);
  const parts = partVerdicts(chances, findings, bars);
  return {
    kept,
    frame,
    situation,
    contradictions,
    hypotheses,
    chances,
    findings,
    inQuestion,
    bars,
    parts,
    leading: leadingOf(chances, findings, bars),
  };
}

const BARS = new WeakMap<StartingChances, StartingBars>();

/** Worked out once for one table of starting chances. */
function barsOf(starting: StartingChances): StartingBars {
  let bars = BARS.get(starting);
  if (!bars) BARS.set(starting, (bars = barsFrom(sumByFault(startOf(starting)))));
  return bars;
}

function hasReading(job: Job): boolean {
  for (const id of job.keys()) {
    const entry = entryOf(id);
    if (entry !== undefined && isReading(entry)) return true;
  }
  return false;
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
  const { chances, parts, contradictions, findings, frame } = weighed;
  const order = Array.from(FAULT_KEYS.keys()).sort((a, b) => chances[b]! - chances[a]!);
  return {
    faults: order.map((k) => ({ fault: FAULT_KEYS[k]!, label: LABELS[k]!, chance: chances[k]! })),
    parts: parts.map((p) => ({ ...p, sentence: partSentence(p, findings) })),
    verdict: verdictOf(weighed),
    contradictions,
    findings,
    frame,
  };
}

/** The verdict alone, for long tables: the same as in `diagnose`. */
export function verdictFor(job: Job, options: DiagnosisOptions = {}): Verdict | undefined {
  const weighed = weigh(job, options);
  return weighed ? verdictOf(weighed) : undefined;
}

export function verdictOf(weighed: Weighed): Verdict {
  const { part, state, chance, verdict } = weighed.leading;
  const sentence = verdict ? partSentence(verdict, weighed.findings) : noFaultSentence(weighed);
  return { part, state, chance, sentence };
}

/** Whether the readings speak no less of a machine in order than before the first of them. */
const mayBeSound = ({ leading, bars }: Weighed) => leading.part === "none" && leading.chance * bars.sound >= 1;

/** Whether a battery that is low, and was not charged since, is all that was found. */
export function isMerelyLow(weighed: Weighed): boolean {
  const { kept, findings } = weighed;
  const low = kept.has("rested-voltage") && !kept.has("load-test-rested") && !findings.has("rest-sound");
  return low && mayBeSound(weighed);
}

/** "No fault found", with what that does not cover yet. */
function noFaultSentence(weighed: Weighed): string {
  const { state, chance } = weighed.leading;
  const sure = `${percent(chance)} that all is in order`;
  const open = weighed.parts.filter((p) => p.state !== "serviceable").sort((a, b) => b.chance - a.chance);
  const names = open.map((p) => p.part).join(", ");
  if (state === "serviceable")
    return `No fault found (${sure})${open.length > 0 ? `; not fully checked: ${names}` : "; every part is checked"}.`;
  const suspects = open.filter((p) => p.state === "suspect" || p.state === "faulty");
  if (suspects.length > 0) return `No fault found so far (${sure}); in question: ${withChances(suspects)}.`;
  if (chance >= 1 - weighed.bars.serviceable && weighed.inQuestion.length > 0)
    return `No fault found so far (${sure}); in question: ${weighed.inQuestion.map(readingName).join(", ")}.`;
  // What was unlikely beforehand is not wrong for that.
  if (chance < weighed.bars.serviceable && !mayBeSound(weighed))
    return `No fault found so far, yet something is wrong (${sure}); likeliest: ${withChances(open.slice(0, 3))}.`;
  const low = isMerelyLow(weighed) ? " The battery is discharged: charge it and read again." : "";
  return `No fault found so far (${sure}); not fully checked yet: ${names}.${low}`;
}

const readingName = (id: string) => withinSentence(label(id));

function withChances(parts: readonly PartVerdict[]): string {
  return parts.map((p) => `${p.part} (${percent(p.chance)}, ${withinSentence(faultOf(p.fault).label)})`).join(", ");
}

/** A part's state in one sentence. */
export function partSentence({ part, state, chance, fault, proof }: PartVerdict, findings: Findings): string {
  const name = sentenceCase(part);
  const cause = withinSentence(faultOf(fault).label);
  switch (state) {
    case "faulty":
      return `${name}: faulty (${percent(chance)}), ${cause}${proof ? `; ${proof.words}` : ""}.`;
    case "suspect":
      return `${name}: suspect (${percent(chance)}), ${cause}; ${chance >= THRESHOLDS.faulty ? "no check of the part itself shows it yet" : "not proven"}.`;
    case "serviceable":
      return `${name}: serviceable; its own checks are in order.`;
    case "unproven": {
      const open = openChecks(part, findings);
      return open.length > 0
        ? `${name}: unproven; not shown in order yet: ${open.join(", ")}.`
        : `${name}: unproven; its own checks are in order, but ${cause} is not ruled out (${percent(chance)}).`;
    }
  }
}

export function percent(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole === 100) return "over 99 %";
  if (whole === 0) return "under 1 %";
  return `${whole} %`;
}
