import { checkOf } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { readingWords } from "./check-words";
import { checksTaken, leaveOut } from "./checks-taken";
import { chanceOf, weighAll, type DiagnosisOptions, type Weighed } from "./diagnose";
import { expectationWords } from "./expectations";
import type { FaultKey } from "./faults";
import { sumByFault } from "./hypotheses";
import { posterior } from "./posterior";
import { logStart, SHIPPED_CHANCES } from "./starting-chances";

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
  return evidenceOf(weighAll(job, options), faults, options);
}

/** The same for a job that is weighed already. */
export function evidenceOf(weighed: Weighed, faults: readonly FaultKey[], options: DiagnosisOptions = {}): readonly FaultEvidence[] {
  const { kept, frame } = weighed;
  const start = logStart(options.startingChances ?? SHIPPED_CHANCES);
  const taken = checksTaken(kept);
  const without = new Map(taken.map((check) => [check, { chances: sumByFault(posterior(leaveOut(kept, check), start, options.knownGood)) }]));
  return faults.map((fault) => {
    const items = taken.map((check): EvidenceItem => {
      const weight = logOdds(chanceOf(weighed, fault)) - logOdds(chanceOf(without.get(check)!, fault));
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

function logOdds(chance: number): number {
  const c = Math.min(Math.max(chance, 1e-9), 1 - 1e-9);
  return Math.log(c / (1 - c));
}

/** Label of a check for lists. */
export function checkLabel(checkId: string): string {
  return checkOf(checkId)?.label ?? checkId;
}
