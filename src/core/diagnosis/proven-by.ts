import type { Job, Part } from "../readings/types";
import { readingWords } from "./check-words";
import { checksTaken, leaveOut } from "./checks-taken";
import { asWeighed, contradictionsOf } from "./contradictions";
import type { DiagnosisOptions } from "./diagnose";
import { SOUND_CHECKS, type DirectProof } from "./direct-checks";
import { checkLabel } from "./evidence";
import type { Finding } from "./finding";
import { findingsOf } from "./findings";
import { frameOf } from "./frame";

/** A check with what was read in it. */
export interface CheckRead {
  readonly check: string;
  readonly label: string;
  /** The readings with their numbers. */
  readonly words: string;
}

/**
 * The checks that a proof stands on, in working order: without one of them its findings are not all
 * there, or it shows one of them alone.
 */
export function provenBy(job: Job, proof: DirectProof, options: DiagnosisOptions = {}): readonly CheckRead[] {
  return checksThatShow(job, proof.findings, options);
}

/** The checks that show a part to be in order, in working order. */
export function clearedBy(job: Job, part: Part, options: DiagnosisOptions = {}): readonly CheckRead[] {
  return checksThatShow(
    job,
    SOUND_CHECKS[part].flatMap(({ shows }) => shows),
    options,
  );
}

function checksThatShow(job: Job, findings: readonly Finding[], { knownGood = [] }: DiagnosisOptions): CheckRead[] {
  const frame = frameOf(job);
  const kept = asWeighed(job, contradictionsOf(job, frame));
  const found = (of: Job) => {
    const all = findingsOf(of, frameOf(of), knownGood);
    return findings.filter((finding) => all.has(finding));
  };
  const checks = checksTaken(kept);
  const shown = found(kept);
  return checks
    .filter((check) => {
      const alone = checks.reduce((rest, other) => (other === check ? rest : leaveOut(rest, other)), kept);
      return found(leaveOut(kept, check)).length < shown.length || found(alone).length > 0;
    })
    .map((check) => ({ check, label: checkLabel(check), words: readingWords(kept, check) }));
}
