import { checkOf } from "../readings/catalogue";
import { CHECKS } from "../readings/checks";
import type { Job, Part } from "../readings/types";
import { percent, weighAll, type DiagnosisOptions, type Weighed } from "./diagnose";
import { checksDone, checksTaken } from "./checks-taken";
import { faultOf, withinSentence } from "./faults";
import type { Finding } from "./findings";
import { FAULT_KEYS, HYPOTHESES, KEY_OF_HYPOTHESIS } from "./hypotheses";
import { CHECK_OUTCOMES, type CheckOutcomes } from "./outcomes";
import { leadingAmong, type Found, type Leading } from "./part-state";

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

/**
 * An outcome rarer than this is not spoken of; a verdict that a check shows is not doubted for one in twenty, one
 * that only exclusion tells is.
 */
const RARE = 0.01;
const RARE_WHEN_SETTLED = 0.05;
/** Information from which on a check is worth doing while nothing is settled [bit]. */
const TELLING = 0.03;
/** Hypotheses less likely than this do not steer the choice of a check. */
const NEGLIGIBLE = 1e-3;

/**
 * The checks not yet done, best first: expected information per minute of work. A check whose answer
 * cannot change the verdict is left out; an empty list means that nothing more is worth doing.
 */
export function nextChecks(job: Job, options: DiagnosisOptions = {}): readonly NextCheck[] {
  return nextChecksOf(weighAll(job, options));
}

/** The same for a job that is weighed already. */
export function nextChecksOf(weighed: Weighed): readonly NextCheck[] {
  const taken = new Set(checksTaken(weighed.kept));
  const done = new Set(checksDone(weighed.kept));
  const live = liveHypotheses(weighed.hypotheses);
  const out: NextCheck[] = [];
  for (const candidate of CHECK_OUTCOMES) {
    if (done.has(candidate.check)) continue;
    const judged = expected(candidate, live, weighed);
    if (!judged) continue;
    const seen = judged.outcomes
      .filter((o) => o.chance >= RARE)
      .sort((a, b) => b.chance - a.chance)
      .map((o) => ({ words: o.words, chance: o.chance, means: shortWords(o.leading) }));
    out.push({
      check: candidate.check,
      label: checkOf(candidate.check)!.label,
      minutes: minutesOf(candidate.check, taken),
      gain: judged.gain,
      outcomes: seen,
      why: seen.map((o) => `${o.words} (${percent(o.chance)}) would mean: ${o.means}`).join("; "),
    });
  }
  return out.sort((a, b) => b.gain / b.minutes - a.gain / a.minutes);
}

/** Only the label of the best check, without its words: for long tables. */
export function bestCheckLabel(weighed: Weighed): string | undefined {
  const taken = new Set(checksTaken(weighed.kept));
  const done = new Set(checksDone(weighed.kept));
  const live = liveHypotheses(weighed.hypotheses);
  let best: { check: string; rate: number } | undefined;
  for (const candidate of CHECK_OUTCOMES) {
    if (done.has(candidate.check)) continue;
    const judged = expected(candidate, live, weighed);
    if (!judged) continue;
    const rate = judged.gain / minutesOf(candidate.check, taken);
    if (!best || rate > best.rate) best = { check: candidate.check, rate };
  }
  return best && checkOf(best.check)!.label;
}

const MINUTES = new Map(CHECKS.map((c) => [c.id, c.minutes]));

function minutesOf(check: string, taken: ReadonlySet<string>): number {
  let minutes = MINUTES.get(check)!;
  for (const { checks, saves } of SET_UPS)
    if (checks.includes(check) && checks.some((other) => other !== check && taken.has(other))) minutes -= saves;
  return Math.max(1, minutes);
}

/** The hypotheses still in question; rows of numbers of which the first `count` (or `faults`) count. */
interface Live {
  readonly count: number;
  readonly indices: Int32Array;
  readonly chances: Float64Array;
  /** Position of each one's fault among the faults that are still in question. */
  readonly slots: Int32Array;
  readonly faults: number;
  readonly keys: Int32Array;
}

/** Working room, used anew for each job: a fleet asks a hundred thousand times. */
const ROOM = {
  indices: new Int32Array(HYPOTHESES.length),
  slots: new Int32Array(HYPOTHESES.length),
  chances: new Float64Array(HYPOTHESES.length),
  keys: new Int32Array(FAULT_KEYS.length),
  before: new Float64Array(FAULT_KEYS.length),
  after: new Float64Array(FAULT_KEYS.length),
  shown: new Uint8Array(HYPOTHESES.length),
  chancesOf: new Float64Array(HYPOTHESES.length * Math.max(...CHECK_OUTCOMES.map((c) => c.outcomes.length))),
  joint: new Float64Array(FAULT_KEYS.length * Math.max(...CHECK_OUTCOMES.map((c) => c.outcomes.length))),
};

function liveHypotheses(hypotheses: Float64Array): Live {
  const { indices, slots, chances, keys } = ROOM;
  let count = 0;
  let faults = 0;
  let total = 0;
  for (let h = 0; h < hypotheses.length; h++) {
    if (hypotheses[h]! <= NEGLIGIBLE) continue;
    const key = KEY_OF_HYPOTHESIS[h]!;
    let slot = 0;
    while (slot < faults && keys[slot] !== key) slot++;
    if (slot === faults) keys[faults++] = key;
    indices[count] = h;
    slots[count++] = slot;
    total += hypotheses[h]!;
  }
  for (let i = 0; i < count; i++) chances[i] = hypotheses[indices[i]!]! / total;
  return { count, indices, chances, slots, faults, keys };
}

/** For each check, which hypotheses it sees alike: a number of their own. */
const ALIKE = new Map(
  CHECK_OUTCOMES.map((candidate) => {
    const seen = HYPOTHESES.map(candidate.seenAs);
    const kinds = [...new Set(seen)];
    return [candidate, { of: Int32Array.from(seen, (kind) => kinds.indexOf(kind)), count: kinds.length }];
  }),
);

interface Judged {
  readonly gain: number;
  readonly outcomes: readonly { readonly words: string; readonly chance: number; readonly leading: Leading }[];
}

function expected(candidate: CheckOutcomes, live: Live, weighed: Weighed): Judged | undefined {
  const settled = isSettled(weighed.leading);
  const rare = settled && weighed.leading.verdict?.proof?.kind !== "exclusion" ? RARE_WHEN_SETTLED : RARE;
  const count = candidate.outcomes.length;
  const slots = live.faults;
  // Joint chances of outcome and fault.
  const { joint, before, after } = ROOM;
  joint.fill(0, 0, count * slots);
  before.fill(0, 0, slots);
  const alike = ALIKE.get(candidate)!;
  const { shown, chancesOf } = ROOM;
  shown.fill(0, 0, alike.count);
  for (let i = 0; i < live.count; i++) {
    const h = live.indices[i]!;
    const group = alike.of[h]!;
    if (shown[group] === 0) {
      candidate.chances(HYPOTHESES[h]!, weighed.frame, weighed.situation, chancesOf, group * count);
      shown[group] = 1;
    }
    const slot = live.slots[i]!;
    before[slot] = before[slot]! + live.chances[i]!;
    for (let o = 0; o < count; o++)
      joint[o * slots + slot] = joint[o * slots + slot]! + live.chances[i]! * chancesOf[group * count + o]!;
  }
  let information = entropy(before, 0, slots, 1);
  let settles = 0;
  let changes = false;
  const outcomes = candidate.outcomes.map((o, index) => {
    let chance = 0;
    for (let s = 0; s < slots; s++) chance += joint[index * slots + s]!;
    information -= chance * entropy(joint, index * slots, slots, chance);
    for (let s = 0; s < slots; s++) after[s] = joint[index * slots + s]! / Math.max(chance, 1e-300);
    const leading = leadingAmong(slots, live.keys, after, withFindings(weighed.findings, o.findings), weighed.bars);
    if (isSettled(leading)) settles += chance;
    if (chance >= rare && differs(leading, weighed.leading)) changes = true;
    return { words: o.words, chance, leading };
  });
  // Before a part is in question, one check alone may not name it: what it tells counts all the same.
  if (!changes && (settled || information < TELLING)) return undefined;
  return { gain: Math.max(0, information) + (settled ? 0 : settles), outcomes };
}

function withFindings(findings: Found, more: readonly Finding[]): Found {
  return more.length === 0 ? findings : { has: (finding) => findings.has(finding) || more.includes(finding) };
}

function isSettled({ state }: Leading): boolean {
  return state === "faulty" || state === "serviceable";
}

function differs(a: Leading, b: Leading): boolean {
  if (a.part !== b.part || a.state !== b.state) return true;
  // A unit that is called faulty is replaced whichever of its faults it has; a run or a consumer is looked for.
  const replaced = a.state === "faulty" && a.part !== "wiring" && a.part !== "load";
  return !replaced && a.verdict?.fault !== b.verdict?.fault;
}

/** Entropy of the chances `values[from …]` divided by `total` [bit]. */
function entropy(values: Float64Array, from: number, count: number, total: number): number {
  let bits = 0;
  for (let i = from; i < from + count; i++) {
    const c = values[i]! / total;
    if (c > 1e-12) bits -= c * Math.log2(c);
  }
  return bits;
}

function shortWords({ part, state, chance, verdict }: Leading): string {
  if (part === "none")
    return state === "serviceable"
      ? `no fault found (${percent(chance)})`
      : `still no fault found (${percent(chance)})`;
  return `${part satisfies Part} ${state} (${percent(chance)}${verdict ? `, ${withinSentence(faultOf(verdict.fault).label)}` : ""})`;
}
