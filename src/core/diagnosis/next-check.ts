import { checkOf } from "../readings/catalogue";
import { CHECKS } from "../readings/checks";
import type { Job, Part } from "../readings/types";
import { contradictionsOf, withoutSetAside } from "./contradictions";
import { partVerdict, percent, THRESHOLDS, verdictOf, type DiagnosisOptions, type FaultChance } from "./diagnose";
import { checksTaken } from "./evidence";
import { faultOf, labelOfKey, type FaultId, type FaultKey } from "./faults";
import { findingsOf, type Finding } from "./findings";
import { frameOf, type Frame } from "./frame";
import { HYPOTHESES } from "./hypotheses";
import { CHECK_OUTCOMES, type CheckOutcomes } from "./outcomes";
import { posterior } from "./posterior";
import { chancesOf, SHIPPED_CHANCES } from "./starting-chances";
import { PARTS } from "../readings/types";

export interface ExpectedOutcome {
  readonly words: string;
  readonly chance: number;
  /** What the verdict would be then. */
  readonly means: string;
}

export interface NextCheck {
  readonly check: string;
  readonly label: string;
  /** Working minutes, less what is already set up. */
  readonly minutes: number;
  /** Expected information on the fault, and one bit for a verdict that may be acted on [bit]. */
  readonly gain: number;
  readonly outcomes: readonly ExpectedOutcome[];
  readonly why: string;
}

/** Checks that share a set-up: when one was done the next costs this much less [min]. */
const SET_UPS: readonly { readonly checks: readonly string[]; readonly saves: number }[] = [
  { checks: ["winding-ohms", "winding-to-ground", "no-load-ac", "insulation"], saves: 2 },
  { checks: ["diode-check", "output-short", "case-leakage"], saves: 3 },
  { checks: ["running-idle", "running-test"], saves: 1 },
];

/** An outcome rarer than this is not spoken of; a verdict that may be acted on is not doubted for one in twenty. */
const RARE = 0.01;
const RARE_WHEN_SETTLED = 0.05;

/**
 * The checks not yet done, best first: expected information per minute of work. A check whose answer
 * cannot change the verdict is left out; an empty list means that nothing more is worth doing.
 */
export function nextChecks(job: Job, options: DiagnosisOptions = {}): readonly NextCheck[] {
  const kept = withoutSetAside(job, contradictionsOf(job, frameOf(job)));
  const frame = frameOf(kept);
  const start = chancesOf(options.startingChances ?? SHIPPED_CHANCES);
  const now = posterior(kept, (fault) => Math.log(start.get(fault) ?? 0), options.knownGood);
  const findings = findingsOf(kept, frame, options.knownGood);
  const taken = new Set(checksTaken(kept));
  const verdictNow = verdictGiven(now, findings, options);
  const out: NextCheck[] = [];
  for (const candidate of CHECK_OUTCOMES) {
    if (taken.has(candidate.check)) continue;
    const judged = expected(candidate, now, findings, frame, options, verdictNow);
    if (!judged) continue;
    const minutes = minutesOf(candidate.check, taken);
    out.push({ check: candidate.check, label: checkOf(candidate.check)!.label, minutes, ...judged });
  }
  return out.sort((a, b) => b.gain / b.minutes - a.gain / a.minutes);
}

function minutesOf(check: string, taken: ReadonlySet<string>): number {
  const full = CHECKS.find((c) => c.id === check)!.minutes;
  const saved = SET_UPS.filter((s) => s.checks.includes(check) && s.checks.some((other) => other !== check && taken.has(other))).reduce((sum, s) => sum + s.saves, 0);
  return Math.max(1, full - saved);
}

interface Verdict {
  readonly key: string;
  readonly settled: boolean;
  readonly words: string;
}

function expected(
  candidate: CheckOutcomes,
  now: Float64Array,
  findings: ReadonlySet<Finding>,
  frame: Frame,
  options: DiagnosisOptions,
  verdictNow: Verdict,
): Omit<NextCheck, "check" | "label" | "minutes"> | undefined {
  const chances = HYPOTHESES.map((h) => candidate.chances(h, frame));
  let information = entropy(faultsOf(now));
  let settles = 0;
  let changes = false;
  const outcomes = candidate.outcomes.map((o, i): ExpectedOutcome => {
    let chance = 0;
    const after = new Float64Array(now.length);
    for (let h = 0; h < now.length; h++) chance += after[h] = now[h]! * chances[h]![i]!;
    for (let h = 0; h < now.length; h++) after[h] = after[h]! / Math.max(chance, 1e-300);
    information -= chance * entropy(faultsOf(after));
    const verdict = verdictGiven(after, new Set([...findings, ...o.findings]), options);
    if (verdict.settled) settles += chance;
    if (chance >= (verdictNow.settled ? RARE_WHEN_SETTLED : RARE) && verdict.key !== verdictNow.key) changes = true;
    return { words: o.words, chance, means: verdict.words };
  });
  if (!changes) return undefined;
  const gain = Math.max(0, information) + (verdictNow.settled ? 0 : settles);
  const seen = outcomes.filter((o) => o.chance >= RARE).sort((a, b) => b.chance - a.chance);
  const why = seen.map((o) => `${o.words} (${percent(o.chance)}) would mean: ${o.means}`).join("; ");
  return { gain, outcomes: seen, why };
}

function faultsOf(hypotheses: Float64Array): Map<FaultKey, number> {
  const chances = new Map<FaultKey, number>();
  HYPOTHESES.forEach((h, i) => chances.set(h.fault, (chances.get(h.fault) ?? 0) + hypotheses[i]!));
  return chances;
}

function entropy(chances: ReadonlyMap<FaultKey, number>): number {
  let bits = 0;
  for (const c of chances.values()) if (c > 1e-12) bits -= c * Math.log2(c);
  return bits;
}

function verdictGiven(hypotheses: Float64Array, findings: ReadonlySet<Finding>, options: DiagnosisOptions): Verdict {
  const chances = faultsOf(hypotheses);
  const thresholds = options.thresholds ?? THRESHOLDS;
  const parts = PARTS.map((part) => partVerdict(part, chances, findings, thresholds));
  const faults: FaultChance[] = [...chances].map(([fault, chance]) => ({ fault, label: labelOfKey(fault), chance }));
  const verdict = verdictOf(faults, parts, thresholds);
  const settled = verdict.state === "faulty" || verdict.state === "serviceable";
  const part = parts.find((p) => p.part === verdict.part);
  return { key: `${verdict.part} ${verdict.state} ${part ? part.fault : ""}`, settled, words: shortWords(verdict.part, verdict.state, verdict.chance, part?.fault) };
}

function shortWords(part: Part | "none", state: string, chance: number, fault: FaultId | undefined): string {
  if (part === "none") return state === "serviceable" ? `no fault found (${percent(chance)})` : `still no fault found (${percent(chance)})`;
  return `${part} ${state} (${percent(chance)}${fault ? `, ${faultOf(fault).label.toLowerCase()}` : ""})`;
}
