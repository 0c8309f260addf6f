import type { PartState } from "../judgement/types";
import { plainState, type BankView, type Device } from "./bank";
import { findLeaks, findOpens, findShorts, findTurned } from "./device-faults";
import { seenWith, type Seen } from "./display";
import { expectedOfKind, expectedOfParts, type Expectations, type Expected } from "./expectation";
import { findMisfits } from "./forward-level";
import { atReference } from "./junction";
import { FORWARD, hasSwappedLeads, REVERSE, uncrossed } from "./swapped-leads";
import {
  BANKS,
  PHASE_NAMES,
  ROWS,
  type Bank,
  type DiodeBlock,
  type DiodeCheck,
  type DiodesJudged,
  type DiodeState,
  type Row,
} from "./types";
import { findInBlock, openLegs, weighed } from "./whole-block";
import {
  healthyWords,
  hiddenBy,
  KIND_WORDS,
  leftOut,
  partsWords,
  reasonsOf,
  REGULATING_SIDE,
  sentences,
  swappedLeads,
} from "./words";

/** 15 °C that nobody noted [V]. @source common-practice −2 mV/°C */
const UNNOTED_TEMPERATURE = 0.03;

/**
 * Judges a diode check of a regulator-rectifier: each reading, and the power devices as a part.
 *
 * A reading is held against known-good parts of the same number where there are any, else against
 * the kind of circuit, always against its sisters. A whole bank that reads unlike plain diodes is
 * never by itself a fault: without a kind and without a known-good part it is `unproven`.
 *
 * @param check - Four rows of two or three readings [V]; kind, known-good parts, meter [V],
 *   temperature of the part [°C], test current [mA]
 * @returns States of the readings in the cells in which they were typed, state of the part, reason,
 *   what to do next, and what such a check cannot show
 * @source diode-check-band forward drops; common-practice parallel path, spread between sisters
 */
export function judgeDiodes(check: DiodeCheck): DiodesJudged {
  return judgeAgainst(check, standardOf(check.knownGood ?? [], check));
}

/** What known-good parts promise, worked out once for any number of parts of the same number. */
export interface KnownGoodStandard {
  readonly expected: Expectations;
  readonly count: number;
  /** Parts that read faulty themselves and do not count. */
  readonly leftOut: number;
}

/** Prepares known-good parts for parts of the same kind, phases and meter as `like`. */
export function standardOf(offered: readonly DiodeBlock[], like: DiodeCheck): KnownGoodStandard {
  const { kind, meter } = like;
  const alone = { ...(kind ? { kind } : {}), ...(meter ? { meter } : {}) };
  const good = offered.filter(
    (part) =>
      judgeAgainst({ ...part, ...alone }, { expected: expectedOfParts([], part), count: 0, leftOut: 0 }).state !==
      "faulty",
  );
  return { expected: expectedOfParts(good, like), count: good.length, leftOut: offered.length - good.length };
}

/** Judges one diode check against known-good parts that are already prepared. */
export function judgeAgainst(check: DiodeCheck, standard: KnownGoodStandard): DiodesJudged {
  const seen = seenWith(check);
  const swapped = hasSwappedLeads(check, seen);
  const block = uncrossed(check, swapped);
  const [upper, lower] = BANKS.map((bank) => judgeBank(bank, block, standard.expected, seen, check)) as [
    BankView,
    BankView,
  ];
  const findings = weighed([...findInBlock(block, seen, check), ...openLegs([...upper.findings, ...lower.findings])]);
  const kind = check.kind ?? "unknown";
  const usesParts = ROWS.some((row) => standard.expected[row].some((expected) => expected.reads !== "anything"));
  const heldAgainst = usesParts ? "known-good parts" : kind === "unknown" ? "sisters only" : "kind of circuit";
  const worst = findings[0];
  const state: PartState = worst?.weight ?? "serviceable";
  return {
    readings: uncrossed(statesOf(upper, lower), swapped),
    state,
    reason: sentences([
      swappedLeads(swapped),
      ...(worst
        ? reasonsOf(findings)
        : [healthyWords(upper, lower, usesParts ? partsWords(standard.count) : KIND_WORDS[kind])]),
      leftOut(standard.leftOut),
    ]),
    next: sentences([worst ? worst.next : REGULATING_SIDE]),
    findings,
    hidden: hiddenBy(upper, lower, kind),
    leadsSwapped: swapped,
    heldAgainst,
    knownGoodCount: standard.count,
  };
}

function judgeBank(bank: Bank, block: DiodeBlock, known: Expectations, seen: Seen, check: DiodeCheck): BankView {
  const expected = expectedOfKind(check.kind ?? "unknown", bank);
  const device = (phase: number): Device => ({
    phase: PHASE_NAMES[phase]!,
    forward: seen(block[FORWARD[bank]][phase]),
    reverse: seen(block[REVERSE[bank]][phase]),
    expected: {
      forward: knownFirst(known[FORWARD[bank]][phase]!, expected.forward),
      reverse: knownFirst(known[REVERSE[bank]][phase]!, expected.reverse),
    },
  });
  const devices = block[FORWARD[bank]].map((_, phase) => device(phase));
  const view: BankView = {
    bank,
    devices,
    forward: devices.map((d) => plainState(d.forward)),
    reverse: devices.map((d) => plainState(d.reverse)),
    findings: [],
    atReference: (volts) => atReference(volts, check),
    atBench: (volts) =>
      check.temperature === undefined ? volts : atReference(volts, { temperature: check.temperature }),
    slack: check.temperature === undefined ? UNNOTED_TEMPERATURE : 0,
  };
  for (const rule of [findShorts, findLeaks, findTurned, findOpens, findMisfits]) rule(view);
  return view;
}

function knownFirst(known: Expected, otherwise: Expected): Expected {
  return known.reads === "anything" ? otherwise : known;
}

function statesOf(upper: BankView, lower: BankView): Record<Row, readonly DiodeState[]> {
  return {
    upperForward: upper.forward,
    lowerForward: lower.forward,
    upperReverse: upper.reverse,
    lowerReverse: lower.reverse,
  };
}
