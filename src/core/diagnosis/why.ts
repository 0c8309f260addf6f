import type { Job } from "../readings/types";
import { diagnosisOf, percent, weigh, type Diagnosis, type DiagnosisOptions } from "./diagnose";
import { evidenceOf, itemWords, type FaultEvidence } from "./evidence";
import { labelOfKey, type FaultKey } from "./faults";
import { nextChecksOf, type NextCheck } from "./next-check";

/** The whole answer for one job: what the pane, the sheet and the command line all show. */
export interface Explained {
  readonly diagnosis: Diagnosis;
  /** For the leading faults, likeliest first. */
  readonly evidence: readonly FaultEvidence[];
  readonly nextChecks: readonly NextCheck[];
}

/** Faults that are worth explaining: those that carry most of the chance. */
export function leadingFaults(diagnosis: Diagnosis, most = 5): readonly FaultKey[] {
  return diagnosis.faults
    .slice(0, most)
    .filter((f, i) => i < 2 || f.chance >= 0.02)
    .map((f) => f.fault);
}

export function explain(job: Job, options: DiagnosisOptions = {}): Explained | undefined {
  const weighed = weigh(job, options);
  if (!weighed) return undefined;
  const diagnosis = diagnosisOf(weighed);
  return {
    diagnosis,
    evidence: evidenceOf(weighed, leadingFaults(diagnosis), options),
    nextChecks: nextChecksOf(weighed),
  };
}

/** The strongest few say it; the rest would bury them. */
const MOST_LINES = 4;

/** One line of the explanation: what it is about, and the sentence. */
export interface WhyLine {
  readonly about:
    "verdict" | "contradiction" | "read again" | "for" | "against" | "other cause" | "next check" | "would change it";
  readonly words: string;
}

/** Why the verdict is what it is, in lines for a cell each. */
export function whyLines({ diagnosis, evidence, nextChecks: next }: Explained): readonly WhyLine[] {
  const lines: WhyLine[] = [{ about: "verdict", words: diagnosis.verdict.sentence }];
  for (const c of diagnosis.contradictions)
    lines.push({ about: c.kind === "taken too early" ? "read again" : "contradiction", words: c.words });
  const leading = evidence[0]!;
  for (const item of leading.for.slice(0, MOST_LINES)) lines.push({ about: "for", words: `${itemWords(item)}.` });
  for (const item of leading.against.slice(0, MOST_LINES))
    lines.push({ about: "against", words: `${itemWords(item)}.` });
  for (const other of evidence.slice(1)) {
    const chance = diagnosis.faults.find((f) => f.fault === other.fault)!.chance;
    if (chance < 0.02) continue;
    const strongest = [
      ...other.for.map((i) => `for it, ${itemWords(i)}`),
      ...other.against.map((i) => `against it, ${itemWords(i)}`),
    ].slice(0, 2);
    lines.push({
      about: "other cause",
      words: `${labelOfKey(other.fault)} (${percent(chance)})${strongest.length > 0 ? `: ${strongest.join("; ")}` : ""}.`,
    });
  }
  const best = next[0];
  if (best) {
    lines.push({ about: "next check", words: `${best.label}, about ${best.minutes} min.` });
    for (const o of best.outcomes)
      lines.push({
        about: "would change it",
        words: `${best.label}: ${o.words} (${percent(o.chance)}) would mean ${o.means}.`,
      });
  } else {
    lines.push({ about: "next check", words: "No further check could change this verdict." });
  }
  return lines;
}
