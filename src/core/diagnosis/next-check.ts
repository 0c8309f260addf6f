import { checkOf, entryOf } from "../readings/catalogue";
import { CHECKS } from "../readings/checks";
import type { Job, Part } from "../readings/types";
import { isMerelyLow, percent, verdictOf, weighAll, type DiagnosisOptions, type Weighed } from "./diagnose";
import { isLoadTestUnfair } from "./battery-findings";
import { minutesOf } from "./check-minutes";
import { checksTaken, isWhole } from "./checks-taken";
import { faultOf, withinSentence } from "./faults";
import type { Finding, Found } from "./finding";
import { isFlat, onceCharged } from "./flat-battery";
import { FAULT_KEYS } from "./hypotheses";
import { liveHypotheses, sumOfLogs, type Live } from "./live-hypotheses";
import { CHECK_OUTCOMES, type CheckOutcomes } from "./outcomes";
import { outcomesOf } from "./outcomes-of-machine";
import { leadingAmong, settledAmong, type KeyChances, type Leading } from "./part-state";
import { SIGNATURE_COUNT, SIGNATURE_OF_HYPOTHESIS, type Situation } from "./signatures";

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

/**
 * An outcome rarer than this is not spoken of; a verdict that a check shows is not doubted for one in twenty, one
 * that only exclusion tells is for one in two hundred: a fuse is looked at before a unit is replaced.
 */
const RARE = 0.01;
const RARE_WHEN_SETTLED = 0.05;
const RARE_WHEN_EXCLUDED = 0.005;
/** Information from which on a check is worth doing while nothing is settled [bit]. */
const TELLING = 0.03;

/**
 * The checks not yet done, best first: expected information per minute of work. A check whose answer
 * cannot change the verdict is left out. Where none is left but a reading is in question, it is taken again; an empty
 * list means that nothing more is worth doing.
 */
export function nextChecks(job: Job, options: DiagnosisOptions = {}): readonly NextCheck[] {
  return nextChecksOf(weighAll(job, options));
}

/** The same for a job that is weighed already. */
export function nextChecksOf(weighed: Weighed): readonly NextCheck[] {
  const all = worthDoing(weighed, true).map(({ check, minutes, judged: { gain, outcomes }, rate }) => {
    const seen = outcomes
      .filter((o) => o.chance >= RARE)
      .sort((a, b) => b.chance - a.chance)
      .map((o) => ({ words: o.words, chance: o.chance, means: shortWords(o.leading) }));
    const why = seen.map((o) => `${o.words} (${percent(o.chance)}) would mean: ${o.means}`).join("; ");
    return { rate, next: { check, label: checkOf(check)!.label, minutes, gain, outcomes: seen, why } };
  });
  const again = all.length === 0 ? takenAgain(weighed) : undefined;
  if (again !== undefined) {
    const minutes = minutesOf(again, checksTaken(weighed.kept));
    return [
      { check: again, label: checkOf(again)!.label, minutes, gain: 0, outcomes: [], why: verdictOf(weighed).sentence },
    ];
  }
  return all.sort((a, b) => b.rate - a.rate).map(({ next }) => next);
}

/**
 * What to do about a reading that alone keeps a machine from being in order: take it again, but put a battery that
 * cranks low under load first (common practice).
 */
function takenAgain({ leading, inQuestion, kept }: Weighed): string | undefined {
  const id = leading.part === "none" ? inQuestion[0] : undefined;
  if (id === undefined) return undefined;
  return id === "cranking-voltage" && !checksTaken(kept).includes(CHARGED_FOR) ? CHARGED_FOR : entryOf(id)?.check;
}

/** Only the label of the best check, without its words: for long tables. */
export function bestCheckLabel(weighed: Weighed): string | undefined {
  const best = worthDoing(weighed, false).at(-1)?.check ?? takenAgain(weighed);
  return best === undefined ? undefined : checkOf(best)!.label;
}

interface WorthDoing {
  readonly check: string;
  readonly minutes: number;
  readonly judged: Judged;
  /** What it gains for each minute, above all for what comes first [bit/min]. */
  readonly rate: number;
}

/**
 * @param told - Whether each is told with what its outcomes would mean; if not, only those are given that are better
 *   than all before them
 */
function worthDoing(weighed: Weighed, told: boolean): readonly WorthDoing[] {
  const { kept, frame } = weighed;
  const taken = checksTaken(kept);
  const again = isLoadTestUnfair(kept, frame) ? "load-test" : "";
  const isOpen = ({ check }: CheckOutcomes) => check === again || !isWhole(check, taken, kept);
  const flat = isFlat(kept, frame);
  // Common practice: a low battery is charged and tested before the rest is judged by what it does, unless it cranks.
  const charge = flat || (!taken.includes("cranking") && isMerelyLow(weighed));
  const asked: Asked = {
    live: liveHypotheses(weighed.hypotheses),
    weighed,
    told,
    situation: onceCharged(weighed.situation),
  };
  const found: WorthDoing[] = [];
  let most = 0;
  for (const candidate of outcomesOf(frame)) {
    const { check } = candidate;
    if (!isOpen(candidate) || (flat && RUNS.has(check))) continue;
    const minutes = minutesOf(check, taken);
    const first = charge && check === CHARGED_FOR;
    const judged = expected(candidate, asked, told || first ? 0 : most * minutes, first);
    if (!judged) continue;
    const rate = first ? Infinity : judged.gain / minutes;
    if (!told && found.length > 0 && rate <= most) continue;
    most = rate;
    found.push({ check, minutes, judged, rate });
  }
  return found;
}

const RUNS = new Set(CHECKS.filter((c) => /cranking|idle|speed/u.test(c.engine)).map((c) => c.id));
/** The check that a flat or low battery is charged for: it comes first, because the others wait for it. */
const CHARGED_FOR = "load-test";

const MOST_OUTCOMES = Math.max(...CHECK_OUTCOMES.map((c) => c.outcomes.length));
/** Working room, used anew for each job: a fleet asks a hundred thousand times. */
const ROOM = {
  after: new Float64Array(FAULT_KEYS.length),
  chancesOf: new Float64Array(SIGNATURE_COUNT * MOST_OUTCOMES),
  joint: new Float64Array(FAULT_KEYS.length * MOST_OUTCOMES),
  sums: new Float64Array(MOST_OUTCOMES),
};

interface Judged {
  readonly gain: number;
  /** Empty where they were not asked for. */
  readonly outcomes: readonly { readonly words: string; readonly chance: number; readonly leading: Leading }[];
}

/** What all checks are asked about. */
interface Asked {
  readonly live: Live;
  readonly weighed: Weighed;
  /** Whether each outcome is asked for with what it would mean. */
  readonly told: boolean;
  /** The job as it will be when the check is done. */
  readonly situation: Situation;
}

/**
 * @param least - What it must gain to be of interest, unless it is told [bit]
 * @param must - Whether it is worth doing whatever it tells
 * @returns `undefined` for a check that is not worth doing, or gains less than that
 */
function expected(candidate: CheckOutcomes, asked: Asked, least = 0, must = false): Judged | undefined {
  const { live, weighed, told } = asked;
  const settled = isSettled(weighed.leading);
  const excluded = weighed.leading.verdict?.proof?.kind === "exclusion";
  const rare = !settled ? RARE : excluded ? RARE_WHEN_EXCLUDED : RARE_WHEN_SETTLED;
  const slots = live.faults;
  const { joint, sums, after } = ROOM;
  const count = candidate.outcomes.length;
  jointChances(candidate, asked);
  let nats = live.doubt;
  for (let index = 0; index < count; index++) {
    let chance = 0;
    for (let s = index * slots; s < (index + 1) * slots; s++) chance += joint[s]!;
    sums[index] = chance;
    nats += sumOfLogs(joint, index * slots, slots) - (chance > 0 ? chance * Math.log(chance) : 0);
  }
  const information = Math.max(0, nats / Math.LN2);
  if (!told && information + (settled ? 0 : 1) <= least) return undefined;
  // Before a part is in question, one check alone may not name it: what it tells counts all the same.
  let worthwhile = must || (!settled && information >= TELLING);
  let settles = 0;
  const then: KeyChances = { count: slots, keys: live.keys, chances: after };
  const outcomes: { words: string; chance: number; leading: Leading }[] = [];
  for (let index = 0; index < count; index++) {
    const { words, findings } = candidate.outcomes[index]!;
    const chance = sums[index]!;
    const scale = 1 / Math.max(chance, 1e-300);
    for (let s = 0; s < slots; s++) after[s] = joint[index * slots + s]! * scale;
    const found = withFindings(weighed.findings, findings);
    // Which fault of an unproven part leads is of interest where it is told, or may be the change looked for.
    const whole = told || (!worthwhile && chance >= rare);
    const leading = (whole ? leadingAmong : settledAmong)(then, found, weighed.bars);
    if (!leading) continue;
    if (isSettled(leading)) settles += chance;
    if (chance >= rare && !worthwhile && differs(leading, weighed.leading)) worthwhile = true;
    if (told) outcomes.push({ words, chance, leading });
  }
  return worthwhile ? { gain: information + (settled ? 0 : settles), outcomes } : undefined;
}

/** Joint chances of outcome and fault, a row an outcome, into the working room. */
function jointChances(candidate: CheckOutcomes, { live, weighed: { frame }, situation }: Asked): void {
  const { joint, chancesOf } = ROOM;
  const count = candidate.outcomes.length;
  const slots = live.faults;
  let rows: Float64Array = chancesOf;
  let rowOf: Int32Array = SIGNATURE_OF_HYPOTHESIS;
  if ("foretold" in candidate) candidate.foretold(frame, situation, live.signatures, chancesOf);
  else {
    rows = candidate.table;
    rowOf = candidate.states;
  }
  joint.fill(0, 0, count * slots);
  for (let i = 0; i < live.count; i++) {
    const row = rowOf[live.indices[i]!]!;
    const chance = live.chances[i]!;
    let at = live.slots[i]!;
    for (let o = row * count; o < (row + 1) * count; o++, at += slots) joint[at] = joint[at]! + chance * rows[o]!;
  }
}

function withFindings(findings: Found, more: readonly Finding[]): Found {
  return more.length === 0 ? findings : { has: (finding) => findings.has(finding) || more.includes(finding) };
}

function isSettled({ state, another }: Leading): boolean {
  return (state === "faulty" && !another) || state === "serviceable";
}

function differs(a: Leading, b: Leading): boolean {
  if (a.part !== b.part || a.state !== b.state || a.another !== b.another) return true;
  // A unit that is called faulty is replaced whichever of its faults it has; a run or a consumer is looked for.
  const replaced = a.state === "faulty" && a.part !== "wiring" && a.part !== "load";
  return !replaced && a.verdict?.fault !== b.verdict?.fault;
}

function shortWords({ part, state, chance, verdict }: Leading): string {
  if (part === "none")
    return state === "serviceable"
      ? `no fault found (${percent(chance)})`
      : `no part named yet (${percent(chance)} that all is in order)`;
  return `${part satisfies Part} ${state} (${percent(chance)}${verdict ? `, ${withinSentence(faultOf(verdict.fault).label)}` : ""})`;
}
