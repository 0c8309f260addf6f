import type { PartState } from "../judgement/types";
import { PARTS, type Part } from "../readings/types";
import { allSound, anyFails, isReadSound, proofOf, type DirectProof } from "./direct-checks";
import { FAULT_IDS, faultOf, faultsOfKey, type FaultId } from "./faults";
import type { Found } from "./finding";
import { FAULT_KEYS, keyIndex, RUN_DOWN, runDownIn } from "./hypotheses";

export interface Thresholds {
  /** A part is called faulty from this chance on [1]. */
  readonly faulty: number;
  /** A part is called serviceable up to this chance of any fault in it [1]. */
  readonly serviceable: number;
}
export const THRESHOLDS: Thresholds = { faulty: 0.9, serviceable: 0.05 };

/** What each part starts from. */
export interface StartingBars {
  /** From this chance on a part may be suspect, in the order of `PARTS` [1]. */
  readonly suspect: readonly number[];
  /** Chances of faults and pairs before the first reading, in the order of `FAULT_KEYS` [1]. */
  readonly start: Float64Array;
}

/** The thresholds for the readings of one machine. */
export interface Bars extends Thresholds, StartingBars {
  /** How much they have raised the best way of being in order, for each unit of the chance that all is in order. */
  readonly sound: number;
  /** Whether a reading is not in order by itself: while one is, "no fault found" is not settled. */
  readonly inQuestion: boolean;
}
/** A part is suspect from this chance on, if the readings have raised it. */
const SUSPECT = 0.3;
/**
 * What has grown by less than a half is no evidence. So must the odds of a part grow, and one of its faults beside a
 * machine in order: what a battery that merely ran down would show as well makes no part suspect, however little else
 * is left.
 */
const RAISED = 1.5;

export interface PartVerdict {
  readonly part: Part;
  readonly state: PartState;
  /** Chance of any fault in the part [1]. */
  readonly chance: number;
  /** Likeliest fault of the part. */
  readonly fault: FaultId;
  /** On what grounds it is called faulty. */
  readonly proof: DirectProof | undefined;
}

/** Faults of each part, and for each key (single or pair) which of them are in it: two at most, −1 for none. */
const OF_PART = PARTS.map((part) => {
  const faults = FAULT_IDS.filter((id) => faultOf(id).part === part);
  const inside = FAULT_KEYS.map((key) => faultsOfKey(key).filter((id) => faults.includes(id)));
  const place = (n: number) => Int32Array.from(inside, (ids) => (ids[n] === undefined ? -1 : faults.indexOf(ids[n])));
  return { part, faults, first: place(0), second: place(1) };
});
/** Parts that each key is in, two at most; `NO_PART` for none. */
const NO_PART = OF_PART.length;
const partOfKey = (n: number) =>
  Int32Array.from(
    FAULT_KEYS,
    (_, k) => Array.from(OF_PART.keys()).filter((p) => OF_PART[p]!.first[k]! >= 0)[n] ?? NO_PART,
  );
const FIRST_PART = partOfKey(0);
const SECOND_PART = partOfKey(1);
const ALL_KEYS = Int32Array.from(FAULT_KEYS.keys());
export const HEALTHY = keyIndex("healthy");

/** @param start - Chances of faults and pairs before the first reading, in the order of `FAULT_KEYS` */
export function barsFrom(start: Float64Array): StartingBars {
  const suspect = OF_PART.map(({ first }) => {
    const chance = start.reduce((sum, c, k) => (first[k]! < 0 ? sum : sum + c), 0);
    const odds = (RAISED * chance) / Math.max(1 - chance, 1e-9);
    return Math.max(SUSPECT, odds / (1 + odds));
  });
  // A copy of its own: rows of numbers are lent, and these bars are kept.
  return { suspect, start: start.slice() };
}

/**
 * A machine can be in order with its battery charged or merely run down. Readings may fit one of the two as well as any
 * fault though both together hardly do, because the other is nearly all of the chance beforehand.
 *
 * @param hypotheses - Chances with all readings, in the order of `HYPOTHESES`
 * @param healthy - Chance that all is in order [1]
 * @param inQuestion - Whether a reading is not in order by itself
 */
export function barsFor(
  thresholds: Thresholds,
  starting: StartingBars,
  hypotheses: Float64Array,
  healthy: number,
  inQuestion: boolean,
): Bars {
  const runDown = runDownIn(hypotheses);
  const most = Math.max(runDown / RUN_DOWN, (healthy - runDown) / (1 - RUN_DOWN));
  const { faulty, serviceable } = thresholds;
  const { suspect, start } = starting;
  // Spread into one, the two took a thirtieth of a fleet's row.
  return { faulty, serviceable, suspect, start, sound: most / healthy / start[HEALTHY]!, inQuestion };
}

/**
 * State of every part: faulty only with the chance and a direct check that shows it, serviceable only
 * with next to no chance of a fault and its own checks in order.
 *
 * @param chances - Chances of faults and pairs, in the order of `FAULT_KEYS`
 */
export function partVerdicts(chances: Float64Array, findings: Found, bars: Bars): readonly PartVerdict[] {
  return OF_PART.map((_, p) => partVerdict(p, allKeys(chances), findings, bars));
}

/**
 * Working room, used anew for each answer: chances of the parts and behind them what is in none; of a part's faults,
 * and whether each of them is shown.
 */
const MASSES = new Float64Array(NO_PART + 1);
const SINGLE = new Float64Array(Math.max(...OF_PART.map(({ faults }) => faults.length)));
const SHOWN = new Uint8Array(SINGLE.length);

/** Chances of the first `count` of some keys, all others being nil. */
export interface KeyChances {
  readonly count: number;
  /** Places in `FAULT_KEYS`. */
  readonly keys: Int32Array;
  readonly chances: Float64Array;
}

const allKeys = (chances: Float64Array): KeyChances => ({ count: ALL_KEYS.length, keys: ALL_KEYS, chances });

/** State of one part. */
function partVerdict(p: number, among: KeyChances, findings: Found, bars: Bars): PartVerdict {
  const { part, faults, first, second } = OF_PART[p]!;
  const { count, keys, chances } = among;
  const single = SINGLE.fill(0);
  let chance = 0;
  for (let i = 0; i < count; i++) {
    const f = first[keys[i]!]!;
    if (f < 0) continue;
    chance += chances[i]!;
    single[f] = single[f]! + chances[i]!;
    const g = second[keys[i]!]!;
    if (g >= 0) single[g] = single[g]! + chances[i]!;
  }
  let best = 0;
  for (let f = 1; f < faults.length; f++) if (single[f]! > single[best]!) best = f;
  const fault = faults[best]!;
  const proof = chance >= bars.faulty ? proofAmong(p, chance, best, among, findings, bars) : undefined;
  return { part, state: proof ? "faulty" : unprovenState(p, chance, among, findings, bars), chance, fault, proof };
}

function unprovenState(p: number, chance: number, among: KeyChances, findings: Found, bars: Bars): PartState {
  if (chance <= bars.serviceable && allSound(OF_PART[p]!.part, findings)) return "serviceable";
  return isSuspect(p, chance, among, bars) ? "suspect" : "unproven";
}

/** Whether a part is suspect at least, its chance being this. */
function isSuspect(p: number, chance: number, { count, keys, chances }: KeyChances, bars: Bars): boolean {
  const { suspect, faulty, start } = bars;
  if (chance >= faulty || chance < suspect[p]!) return chance >= faulty;
  let most = 0;
  let sound = 0;
  for (let i = 0; i < count; i++) {
    const key = keys[i]!;
    // A reading to come is taken to say as much of one way of being in order as of the other.
    if (key === HEALTHY) sound = chances[i]! * bars.sound;
    else if ((FIRST_PART[key] === p || SECOND_PART[key] === p) && chances[i]! > most * start[key]!)
      most = chances[i]! / start[key]!;
  }
  return !(most <= RAISED * sound);
}

/**
 * What shows that a part is faulty; right after the chances of its faults were added up.
 *
 * @param best - Its likeliest fault
 */
function proofAmong(
  p: number,
  chance: number,
  best: number,
  { count, keys, chances }: KeyChances,
  findings: Found,
  bars: Bars,
): DirectProof | undefined {
  const { faults, first, second } = OF_PART[p]!;
  // What no check shows and only exclusion tells must leave the rest as little room as a serviceable part.
  const exclusion = chance >= 1 - bars.serviceable;
  let proof: DirectProof | undefined;
  for (let f = 0; f < faults.length; f++) {
    const shown = SINGLE[f]! > 0 ? proofOf(faults[f]!, findings, exclusion) : undefined;
    SHOWN[f] = shown ? 1 : 0;
    if (shown && (f === best || !proof)) proof = shown;
  }
  let proven = 0;
  for (let i = 0; i < count; i++) {
    const f = first[keys[i]!]!;
    const g = second[keys[i]!]!;
    if ((f >= 0 && SHOWN[f] === 1) || (g >= 0 && SHOWN[g] === 1)) proven += chances[i]!;
  }
  // What is shown must be what is believed: most of the chance lies on faults that a check shows.
  return proven >= chance / 2 ? proof : undefined;
}

/** What a job comes down to: the part named, or `none` when "no fault found" leads. */
export interface Leading {
  readonly part: Part | "none";
  readonly state: PartState;
  readonly chance: number;
  readonly verdict: PartVerdict | undefined;
  /** Beside a part that is faulty another one is suspect: two faults at once are not settled by one of them. */
  readonly another: boolean;
}

/** @param chances - Chances of faults and pairs, in the order of `FAULT_KEYS` */
export function leadingOf(chances: Float64Array, findings: Found, bars: Bars): Leading {
  return leadingAmong(allKeys(chances), findings, bars);
}

/** The same from the chances of some keys, where only the leading part is of interest. */
export function leadingAmong(among: KeyChances, findings: Found, bars: Bars): Leading {
  return leadingFrom(addUpParts(among, bars), among, findings, bars);
}

/** The same where only a settled one is of interest: `undefined` where it is none for its chance alone. */
export function settledAmong(among: KeyChances, findings: Found, bars: Bars): Leading | undefined {
  const p = addUpParts(among, bars);
  const chance = p < 0 ? 0 : MASSES[p]!;
  const healthy = MASSES[NO_PART]!;
  const open = chance >= healthy ? chance < bars.faulty && chance > bars.serviceable : healthy < 1 - bars.serviceable;
  return open ? undefined : leadingFrom(p, among, findings, bars);
}

/** A part leads only when it is suspect at least. */
function leadingFrom(p: number, among: KeyChances, findings: Found, bars: Bars): Leading {
  const healthy = MASSES[NO_PART]!;
  if (p < 0 || MASSES[p]! < healthy) return noFault(healthy, findings, bars);
  const verdict = partVerdict(p, among, findings, bars);
  return leadingPart(verdict, verdict.state === "faulty" && isAnotherSuspect(p, among, findings, bars));
}

function leadingPart(verdict: PartVerdict, another: boolean): Leading {
  const { part, state, chance } = verdict;
  return { part, state, chance, verdict, another };
}

/** "No fault found" is settled only by what was read, where no check fails and no reading is in question. */
function noFault(healthy: number, findings: Found, bars: Bars): Leading {
  const settled = healthy >= 1 - bars.serviceable && !bars.inQuestion && isReadSound(findings) && !anyFails(findings);
  const state = settled ? "serviceable" : "unproven";
  return { part: "none", state, chance: healthy, verdict: undefined, another: false };
}

/** Right after the chances were added up by part. */
function isAnotherSuspect(leading: number, among: KeyChances, findings: Found, bars: Bars): boolean {
  for (let p = 0; p < NO_PART; p++)
    if (p !== leading && isSuspect(p, MASSES[p]!, among, bars))
      if (partVerdict(p, among, findings, bars).state === "suspect") return true;
  return false;
}

/** Adds the chances up by part; gives the place of the part that leads among those that are suspect, or -1. */
function addUpParts(among: KeyChances, bars: Bars): number {
  const { count, keys, chances } = among;
  MASSES.fill(0);
  let healthy = 0;
  for (let i = 0; i < count; i++) {
    const key = keys[i]!;
    const chance = chances[i]!;
    if (key === HEALTHY) healthy = chance;
    MASSES[FIRST_PART[key]!] = MASSES[FIRST_PART[key]!]! + chance;
    MASSES[SECOND_PART[key]!] = MASSES[SECOND_PART[key]!]! + chance;
  }
  MASSES[NO_PART] = healthy;
  let leading = -1;
  let most = 0;
  for (let p = 0; p < NO_PART; p++)
    if (MASSES[p]! > most && isSuspect(p, MASSES[p]!, among, bars)) {
      leading = p;
      most = MASSES[p]!;
    }
  return leading;
}
