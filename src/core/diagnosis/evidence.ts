import { checkOf, entriesOfCheck, entryOf } from "../readings/catalogue";
import { CHECKS } from "../readings/checks";
import type { Job } from "../readings/types";
import { readingWords } from "./check-words";
import { contradictionsOf, withoutSetAside } from "./contradictions";
import { faultChances, type DiagnosisOptions } from "./diagnose";
import { expectationWords } from "./expectations";
import type { FaultKey } from "./faults";
import { frameOf } from "./frame";

/** What one check says for or against a fault. */
export interface EvidenceItem {
  readonly check: string;
  /** How much the check moves the odds of this fault: natural logarithm, positive is for it. */
  readonly weight: number;
  /** The readings with their numbers, and what the fault would show. */
  readonly words: string;
}

export interface FaultEvidence {
  readonly fault: FaultKey;
  readonly for: readonly EvidenceItem[];
  readonly against: readonly EvidenceItem[];
}

/** Below this a check hardly moves anything: odds change by less than a third. */
const WORTH_SAYING = 0.3;

/**
 * For each fault, which checks speak for it and which against, strongest first: the odds with the
 * check against the odds without it.
 */
export function evidenceFor(job: Job, faults: readonly FaultKey[], options: DiagnosisOptions = {}): readonly FaultEvidence[] {
  const kept = withoutSetAside(job, contradictionsOf(job, frameOf(job)));
  const frame = frameOf(kept);
  const all = faultChances(kept, options);
  const taken = checksTaken(kept);
  const without = new Map(taken.map((check) => [check, faultChances(leaveOut(kept, check), options)]));
  return faults.map((fault) => {
    const items = taken.map((check): EvidenceItem => {
      const weight = logOdds(all.get(fault) ?? 0) - logOdds(without.get(check)!.get(fault) ?? 0);
      const expected = expectationWords(fault, check, frame);
      const said = readingWords(kept, check);
      const words = expected === "" ? said : `${said}; ${weight >= 0 ? "it fits" : "expected"}: ${expected}`;
      return { check, weight, words };
    });
    return {
      fault,
      for: items.filter((i) => i.weight >= WORTH_SAYING).sort((a, b) => b.weight - a.weight),
      against: items.filter((i) => i.weight <= -WORTH_SAYING).sort((a, b) => a.weight - b.weight),
    };
  });
}

/** Checks of which at least one reading is there, in working order. */
export function checksTaken(job: Job): readonly string[] {
  const seen = new Set<string>();
  for (const id of job.keys()) {
    const check = entryOf(id)?.check;
    if (check !== undefined && !CONDITION_ONLY.has(id)) seen.add(check);
  }
  return CHECKS.map((c) => c.id).filter((id) => seen.has(id));
}

/** A speed or a lead resistance alone is no check taken. */
const CONDITION_ONLY = new Set(["idle-rpm", "test-rpm", "no-load-rpm", "no-load-rpm-2", "meter-leads", "meter-ohm-step", "battery-temperature", "stator-temperature", "hours-rested", "load-test-recharged", "load-test-seconds", "load-test-current", "insulation-temperature"]);

export function leaveOut(job: Job, checkId: string): Job {
  const kept = new Map(job);
  for (const entry of entriesOfCheck(checkId)) if (!CONDITION_ONLY.has(entry.id)) kept.delete(entry.id);
  return kept;
}

function logOdds(chance: number): number {
  const c = Math.min(Math.max(chance, 1e-9), 1 - 1e-9);
  return Math.log(c / (1 - c));
}

/** Label of a check for lists. */
export function checkLabel(checkId: string): string {
  return checkOf(checkId)?.label ?? checkId;
}
