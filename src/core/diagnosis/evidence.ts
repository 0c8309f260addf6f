import { checkOf } from "../readings/catalogue";
import { once } from "../same-again";
import type { Job } from "../readings/types";
import { readingWords } from "./check-words";
import { checksTaken, leaveOut } from "./checks-taken";
import { weighAll, type DiagnosisOptions, type Weighed } from "./diagnose";
import { expectationWords, isOutside } from "./expectations";
import type { FaultKey } from "./faults";
import { onceCharged } from "./flat-battery";
import { HYPOTHESES, KEY_OF_HYPOTHESIS, keyIndex, type Placed } from "./hypotheses";
import { logLikelihoods, situationIn, startOf } from "./posterior";
import { SHIPPED_CHANCES } from "./starting-chances";

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

/** Below this a check hardly moves anything: odds change by less than a half. */
const WORTH_SAYING = 0.4;

/**
 * For each fault, which checks speak for it and which against, strongest first: how much likelier
 * the check's readings are with the fault than without it, all other readings given and every other
 * cause as common as it is to start with.
 */
export function evidenceFor(
  job: Job,
  faults: readonly FaultKey[],
  options: DiagnosisOptions = {},
): readonly FaultEvidence[] {
  return evidenceOf(weighAll(job, options), faults, options);
}

/** The same for a job that is weighed already. */
export function evidenceOf(
  weighed: Weighed,
  faults: readonly FaultKey[],
  options: DiagnosisOptions = {},
): readonly FaultEvidence[] {
  const { frame, situation, hypotheses } = weighed;
  const start = startOf(options.startingChances ?? SHIPPED_CHANCES);
  const checks = lastApart({ weighed, options });
  const charged = onceCharged(situation);
  return faults.map((fault) => {
    const likeliest = likeliestWay(fault, hypotheses);
    const key = keyIndex(fault);
    const items = checks.map(({ check, said, gained }): EvidenceItem => {
      const weight = meanLog(gained, hypotheses, (k) => k === key) - meanLog(gained, start, (k) => k !== key);
      // What a flat battery shows at rest foretells nothing of the rest.
      const seen = check === "battery-at-rest" ? situation : charged;
      const expected = expectationWords(likeliest, check, frame, seen);
      // What lies outside its own range is likelier with this cause only because it is rarer still with others.
      const words =
        expected === "" || (weight >= 0 && isOutside(likeliest, check, seen))
          ? said
          : weight >= 0
            ? `${said} (expected with this cause: ${expected})`
            : `${said} (expected with this cause: ${expected}; likelier with others)`;
      return { check, weight, words };
    });
    return {
      fault,
      for: items.filter((i) => i.weight >= WORTH_SAYING).sort((a, b) => b.weight - a.weight),
      against: items.filter((i) => i.weight <= -WORTH_SAYING).sort((a, b) => a.weight - b.weight),
    };
  });
}

/** What each check of a job adds, all others given. Causes and reasons of one job are asked one after another. */
const lastApart = once(checksApart, (one, other) => one.weighed === other.weighed && one.options === other.options);

function checksApart({ weighed: { kept, frame, situation }, options }: Asked) {
  const all = logLikelihoods(kept, frame, options.knownGood ?? [], situation);
  return checksTaken(kept).map((check) => {
    const rest = leaveOut(kept, check);
    // The frame stays: a speed or a plate value belongs to the machine, not to the check.
    const without = logLikelihoods(rest, frame, options.knownGood ?? [], situationIn(rest, frame));
    return { check, said: readingWords(kept, check), gained: all.map((l, i) => l - without[i]!) };
  });
}

interface Asked {
  readonly weighed: Weighed;
  readonly options: DiagnosisOptions;
}

/** log of the mean of exp(`logs`) over the chosen faults, each hypothesis by its chance. */
function meanLog(logs: Float64Array, chances: Float64Array, chosen: (key: number) => boolean): number {
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) if (chosen(KEY_OF_HYPOTHESIS[i]!) && logs[i]! > top) top = logs[i]!;
  let sum = 0;
  let total = 0;
  for (let i = 0; i < logs.length; i++) {
    if (!chosen(KEY_OF_HYPOTHESIS[i]!)) continue;
    const chance = chances[i]! + 1e-12;
    total += chance;
    sum += chance * Math.exp(logs[i]! - top);
  }
  return top + Math.log(sum / total);
}

/** The way in which a fault is likeliest to be there, of the size and kind that the readings speak for. */
function likeliestWay(fault: FaultKey, hypotheses: Float64Array): Placed {
  let best: Placed | undefined;
  let most = -1;
  HYPOTHESES.forEach((h, i) => {
    if (h.fault === fault && hypotheses[i]! > most) [best, most] = [h, hypotheses[i]!];
  });
  return best!;
}

/** One item for a line: what was checked stands first, once. */
export function itemWords({ check, words }: EvidenceItem): string {
  const label = checkOf(check)?.label ?? check;
  return words.startsWith(label) ? words : `${label}: ${words}`;
}

/** Label of a check for lists. */
export function checkLabel(checkId: string): string {
  return checkOf(checkId)?.label ?? checkId;
}
