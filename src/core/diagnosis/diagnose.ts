import { entryOf, isReading } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { PARTS, type Part } from "../readings/types";
import type { PartState } from "../judgement/types";
import { contradictionsOf, withoutSetAside, type Contradiction } from "./contradictions";
import { allSound, proofOf, type DirectProof } from "./direct-checks";
import { faultOf, faultsOfKey, labelOfKey, type FaultId, type FaultKey } from "./faults";
import { findingsOf, type Findings } from "./findings";
import { frameOf, type Frame } from "./frame";
import { HYPOTHESES } from "./hypotheses";
import { posterior } from "./posterior";
import { chancesOf, SHIPPED_CHANCES, type StartingChances } from "./starting-chances";

export interface Thresholds {
  /** A part is called faulty from this chance on [1]. */
  readonly faulty: number;
  /** A part is called serviceable up to this chance of any fault in it [1]. */
  readonly serviceable: number;
}
export const THRESHOLDS: Thresholds = { faulty: 0.9, serviceable: 0.05 };

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

export interface PartVerdict {
  readonly part: Part;
  readonly state: PartState;
  /** Chance of any fault in the part [1]. */
  readonly chance: number;
  /** Likeliest fault of the part. */
  readonly fault: FaultId;
  /** On what grounds it is called faulty. */
  readonly proof?: DirectProof;
  readonly sentence: string;
}

export interface Diagnosis {
  /** Likeliest first; the chances sum to 1. */
  readonly faults: readonly FaultChance[];
  /** Every part, in working order. */
  readonly parts: readonly PartVerdict[];
  /** The part that the verdict names; `none` when "no fault found" leads. */
  readonly verdict: { readonly part: Part | "none"; readonly state: PartState; readonly chance: number; readonly sentence: string };
  readonly contradictions: readonly Contradiction[];
  readonly findings: Findings;
  readonly frame: Frame;
  /** Number of readings that were weighed. */
  readonly readings: number;
}

/**
 * Weighs all that was read of one machine: chances of faults, states of parts, contradictions.
 *
 * @param job - Readings and machine data by catalogue id, in any order; what is missing changes nothing
 * @returns `undefined` where not a single reading was taken: no verdict
 */
export function diagnose(job: Job, options: DiagnosisOptions = {}): Diagnosis | undefined {
  const read = [...job.keys()].filter((id) => {
    const entry = entryOf(id);
    return entry !== undefined && isReading(entry);
  });
  if (read.length === 0) return undefined;
  const rawFrame = frameOf(job);
  const contradictions = contradictionsOf(job, rawFrame);
  const kept = withoutSetAside(job, contradictions);
  const frame = kept === job ? rawFrame : frameOf(kept);
  const chances = faultChances(kept, options);
  const findings = findingsOf(kept, frame, options.knownGood);
  const thresholds = options.thresholds ?? THRESHOLDS;
  const parts = PARTS.map((part) => partVerdict(part, chances, findings, thresholds));
  const faults = [...chances]
    .map(([fault, chance]) => ({ fault, label: labelOfKey(fault), chance }))
    .sort((a, b) => b.chance - a.chance);
  return { faults, parts, verdict: verdictOf(faults, parts, thresholds), contradictions, findings, frame, readings: read.length };
}

/** Chances of the faults alone, for what asks often. */
export function faultChances(job: Job, options: DiagnosisOptions = {}): ReadonlyMap<FaultKey, number> {
  const start = chancesOf(options.startingChances ?? SHIPPED_CHANCES);
  const hypotheses = posterior(job, (fault) => Math.log(start.get(fault) ?? 0), options.knownGood);
  const chances = new Map<FaultKey, number>();
  HYPOTHESES.forEach((h, i) => chances.set(h.fault, (chances.get(h.fault) ?? 0) + hypotheses[i]!));
  return chances;
}

/** State of a part from the chances of its faults and what its own checks show. */
export function partVerdict(part: Part, chances: ReadonlyMap<FaultKey, number>, findings: Findings, thresholds: Thresholds): PartVerdict {
  let chance = 0;
  let proven = 0;
  let fault: FaultId | undefined;
  let best = -1;
  let proof: DirectProof | undefined;
  const single = new Map<FaultId, number>();
  for (const [key, c] of chances) {
    const own = faultsOfKey(key).filter((id) => faultOf(id).part === part);
    if (own.length === 0) continue;
    chance += c;
    if (own.some((id) => proofOf(id, findings) !== undefined)) proven += c;
    for (const id of own) single.set(id, (single.get(id) ?? 0) + c);
  }
  for (const [id, c] of single) {
    if (c <= best) continue;
    [best, fault] = [c, id];
    proof = proofOf(id, findings);
  }
  const state: PartState =
    chance >= thresholds.faulty && proven >= chance / 2
      ? "faulty"
      : chance <= thresholds.serviceable && allSound(part, findings)
        ? "serviceable"
        : chance >= 0.3
          ? "suspect"
          : "unproven";
  return {
    part,
    state,
    chance,
    fault: fault!,
    ...(state === "faulty" && proof ? { proof } : {}),
    sentence: partSentence(part, state, chance, fault!, proof),
  };
}

function partSentence(part: Part, state: PartState, chance: number, fault: FaultId, proof: DirectProof | undefined): string {
  const name = part.charAt(0).toUpperCase() + part.slice(1);
  const cause = `${faultOf(fault).label.charAt(0).toLowerCase()}${faultOf(fault).label.slice(1)}`;
  switch (state) {
    case "faulty":
      return `${name}: faulty (${percent(chance)}), ${cause}${proof ? `; ${proof.words}` : ""}.`;
    case "suspect":
      return `${name}: suspect (${percent(chance)}), ${cause}; ${chance >= 0.9 ? "no check of the part itself shows it yet" : "not proven"}.`;
    case "serviceable":
      return `${name}: serviceable; its own checks are in order.`;
    case "unproven":
      return `${name}: unproven; not all of its own checks are done and in order.`;
  }
}

export function verdictOf(faults: readonly FaultChance[], parts: readonly PartVerdict[], thresholds: Thresholds): Diagnosis["verdict"] {
  const healthy = faults.find((f) => f.fault === "healthy")?.chance ?? 0;
  const leading = parts.reduce((a, b) => (b.chance > a.chance ? b : a));
  if (leading.chance >= healthy) return { part: leading.part, state: leading.state, chance: leading.chance, sentence: leading.sentence };
  const settled = healthy >= 1 - thresholds.serviceable;
  return {
    part: "none",
    state: settled ? "serviceable" : "unproven",
    chance: healthy,
    sentence: settled ? `No fault found (${percent(healthy)}).` : `No fault found so far (${percent(healthy)}), but not all checks are done.`,
  };
}

export function percent(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole === 100 && chance < 1) return "over 99 %";
  if (whole === 0 && chance > 0) return "under 1 %";
  return `${whole} %`;
}
