import type { PartState } from "../judgement/types";
import { plainState, type BankView, type Device } from "./bank";
import { findLeaks, findOpens, findShorts, findTurned } from "./device-faults";
import { displayOf } from "./display";
import { expectedOfKind, expectedOfParts, type Expectations, type Expected } from "./expectation";
import { findMisfits } from "./forward-level";
import { atReference } from "./junction";
import { FORWARD, hasSwappedLeads, REVERSE, uncrossed } from "./swapped-leads";
import { BANKS, PHASE_NAMES, ROWS, type Bank, type DiodeBlock, type DiodeCheck, type DiodesJudged, type DiodeState, type Row } from "./types";
import { findInBlock, openLegs, weighed } from "./whole-block";
import { healthyWords, hiddenBy, KIND_WORDS, leftOut, partsWords, reasonsOf, REGULATING_SIDE, sentences, swappedLeads } from "./words";

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
  const swapped = hasSwappedLeads(check, check);
  const block = uncrossed(check, swapped);
  const offered = check.knownGood ?? [];
  const parts = offered.filter((part) => !readsFaulty(part, check));
  const known = expectedOfParts(parts, check);
  const [upper, lower] = BANKS.map((bank) => judgeBank(bank, block, known, check)) as [BankView, BankView];
  const findings = weighed([...findInBlock(block, check), ...openLegs([...upper.findings, ...lower.findings])]);
  const kind = check.kind ?? "unknown";
  const usesParts = ROWS.some((row) => known[row].some((expected) => expected.reads !== "anything"));
  const heldAgainst = usesParts ? "known-good parts" : kind === "unknown" ? "sisters only" : "kind of circuit";
  const worst = findings[0];
  const state: PartState = worst?.weight ?? "serviceable";
  return {
    readings: uncrossed(statesOf(upper, lower), swapped),
    state,
    reason: sentences([
      swappedLeads(swapped),
      ...(worst ? reasonsOf(findings) : [healthyWords(upper, lower, usesParts ? partsWords(parts.length) : KIND_WORDS[kind])]),
      leftOut(offered.length - parts.length),
    ]),
    next: sentences([worst ? worst.next : REGULATING_SIDE]),
    findings,
    hidden: hiddenBy(upper, lower, kind),
    leadsSwapped: swapped,
    heldAgainst,
    knownGoodCount: parts.length,
  };
}

/** A part that reads shorted or open itself is no known-good part. */
function readsFaulty(part: DiodeBlock, { kind, meter }: DiodeCheck): boolean {
  return judgeDiodes({ ...part, ...(kind ? { kind } : {}), ...(meter ? { meter } : {}) }).state === "faulty";
}

function judgeBank(bank: Bank, block: DiodeBlock, known: Expectations, check: DiodeCheck): BankView {
  const expected = expectedOfKind(check.kind ?? "unknown", bank);
  const device = (phase: number): Device => ({
    phase: PHASE_NAMES[phase]!,
    forward: displayOf(block[FORWARD[bank]][phase], check),
    reverse: displayOf(block[REVERSE[bank]][phase], check),
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
    slack: check.temperature === undefined ? UNNOTED_TEMPERATURE : 0,
  };
  for (const rule of [findShorts, findLeaks, findTurned, findOpens, findMisfits]) rule(view);
  return view;
}

function knownFirst(known: Expected, otherwise: Expected): Expected {
  return known.reads === "anything" ? otherwise : known;
}

function statesOf(upper: BankView, lower: BankView): Record<Row, readonly DiodeState[]> {
  return { upperForward: upper.forward, lowerForward: lower.forward, upperReverse: upper.reverse, lowerReverse: lower.reverse };
}
