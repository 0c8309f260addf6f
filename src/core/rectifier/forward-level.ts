import { forwardRange, nameOf, note, outside, voltsOf, where, type BankView, type Device } from "./bank";
import { displayWords } from "./display";
import { PLAIN_BAND } from "./expectation";
import type { DiodeFinding } from "./types";

/** Sisters of one bank, on one meter within minutes, read within this of each other [V]. @source common-practice */
const SISTERS_WITHIN = 0.05;

/** Devices that conduct forward: against each other, then against what they should read. */
export function findMisfits(view: BankView): void {
  const conducting = where(view, (d) => d.forward.shows === "volts");
  const odd = oddOnesOut(conducting.map((i) => voltsOf(view.devices[i]!.forward)!)).map((k) => conducting[k]!);
  for (const i of odd) {
    view.forward[i] = "odd one out";
    note(view, [i], {
      weight: "suspect",
      state: "odd one out",
      words: `${nameOf(view, i)} reads ${displayWords(view.devices[i]!.forward)}, ${odd.length < conducting.length ? "unlike its sisters" : "and no two of its bank agree"}`,
      next: "clean its terminal and read again; if it stays, compare with a known-good part of the same number",
    });
  }
  const levels = new Map<Misfit, number[]>();
  const sistersBlock = where(view, (d) => d.forward.shows === "over-range").length > 0;
  for (const i of conducting.filter((at) => !odd.includes(at))) {
    const level = levelOf(view, view.devices[i]!);
    if (level === "conducts though controlled" && sistersBlock) noteAlone(view, i);
    else if (level === "parallel path") view.forward[i] = "parallel path";
    else if (level !== "fits") levels.set(level, [...(levels.get(level) ?? []), i]);
  }
  for (const [level, at] of levels) {
    const [weight, words, next] = MISFITS[level];
    note(view, at, {
      weight,
      state: "conducts",
      words: `The ${view.bank} bank reads ${forwardRange(view, at)} forward, ${words}`,
      next,
    });
  }
  findReverseMisfits(view);
}

/** One device of a controlled bank conducts and its sisters block. */
function noteAlone(view: BankView, i: number): void {
  view.forward[i] = "odd one out";
  note(view, [i], {
    weight: "suspect",
    state: "odd one out",
    words: `${nameOf(view, i)} reads ${displayWords(view.devices[i]!.forward)} forward where its sisters block, as controlled devices should`,
    next: "clean its terminal and read again; if it stays, compare with a known-good part of the same number",
  });
}

/** Known-good parts that show volts in reverse have a path there; a part without it is another. */
function findReverseMisfits(view: BankView): void {
  const at = where(view, ({ reverse, expected: { reverse: expected } }) => {
    if (expected.reads !== "volts" || reverse.shows === "nothing" || reverse.shows === "zero") return false;
    return reverse.shows === "over-range" || outside(reverse.volts, expected);
  });
  if (at.length === 0) return;
  const [weight, words, next] = MISFITS["unlike known-good"];
  note(view, at, { weight, state: "conducts", words: `The ${view.bank} bank reads in reverse ${words}`, next });
}

/**
 * Which of a bank's readings stand apart from the others: none while all lie close, the one that is
 * far from two that agree, and all of them where no two agree or two alone differ.
 *
 * @param volts - Forward readings of the bank [V]
 * @returns Places of the readings that stand apart
 */
export function oddOnesOut(volts: readonly number[]): readonly number[] {
  const order = volts.map((_, i) => i).sort((a, b) => volts[a]! - volts[b]!);
  const gaps = order.slice(1).map((at, k) => volts[at]! - volts[order[k]!]!);
  if (gaps.every((gap) => gap <= SISTERS_WITHIN)) return [];
  if (gaps.length === 2 && gaps[0]! <= SISTERS_WITHIN) return [order[2]!];
  if (gaps.length === 2 && gaps[1]! <= SISTERS_WITHIN) return [order[0]!];
  return order.sort();
}

type Misfit = keyof typeof MISFITS;

const COMPARE = "read a known-good part of the same number with the same meter, or find out what is inside";
const CHECK_KIND = "check what is inside this unit, or read a known-good part of the same number";

/** Whole banks that do not read as they should, though their devices agree: by itself never a fault. */
const MISFITS = {
  "low, kind unknown": [
    "unproven",
    "lower than a silicon junction and alike on every phase: a good unit with a second path in parallel reads so, and a fixed 0.5 V rule does not apply",
    COMPARE,
  ],
  "high, kind unknown": [
    "unproven",
    "more than one silicon junction: two in series read so, and so does poor contact",
    COMPARE,
  ],
  "low for plain": [
    "unproven",
    "lower than plain diodes give and alike on every phase, which speaks for a second path in parallel",
    CHECK_KIND,
  ],
  "high for plain": ["suspect", "more than a silicon junction gives", "clean the terminals and read again"],
  "plain for parallel path": ["unproven", "as plain diodes read and not as a bank with a parallel path", CHECK_KIND],
  "unlike parallel path": ["unproven", "not as a bank with a parallel path reads, 0.1 to 0.2 V as a rule", COMPARE],
  "conducts though controlled": ["unproven", "though controlled devices block both ways", CHECK_KIND],
  "unlike known-good": [
    "suspect",
    "unlike the known-good part of the same number",
    "make sure that part number, meter and temperature are the same, and read both parts again",
  ],
} as const satisfies Record<string, readonly [DiodeFinding["weight"], string, string]>;

function levelOf(
  view: BankView,
  { forward, expected: { forward: expected } }: Device,
): Misfit | "fits" | "parallel path" {
  const volts = voltsOf(forward)!;
  const referred = view.atReference(volts);
  const low =
    referred < (expected.reads === "volts" && expected.as === "plain" ? expected.low : PLAIN_BAND.low) - view.slack;
  const high = referred > PLAIN_BAND.high + view.slack;
  if (expected.reads === "anything") return low ? "low, kind unknown" : high ? "high, kind unknown" : "fits";
  switch (expected.as) {
    case "kind":
      return "conducts though controlled";
    case "plain":
      return low ? "low for plain" : high ? "high for plain" : "fits";
    case "parallel path":
      if (!outside(volts, expected)) return "parallel path";
      return low || high ? "unlike parallel path" : "plain for parallel path";
    case "known-good part":
      // A junction that was read hot is compared at the bench; a path through resistors as it stands.
      if (expected.reads === "over-range" || (outside(volts, expected) && outside(view.atBench(volts), expected)))
        return "unlike known-good";
      return low ? "parallel path" : "fits";
  }
}
