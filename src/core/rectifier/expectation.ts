import type { Interval } from "../judgement/types";
import { rectangular } from "../judgement/uncertain";
import { rangeFor, readingUncertainty, TYPICAL_HANDHELD } from "../judgement/meter";
import { seenWith, type Seen } from "./display";
import { knownGood, type KnownGood } from "./known-good";
import { hasSwappedLeads, uncrossed } from "./swapped-leads";
import { type Bank, type BridgeKind, type DiodeBlock, type DiodeCheck, type Row } from "./types";

/** What one reading of a good part shows; `anything` where nobody knows. */
export type Expected =
  | { readonly reads: "anything" }
  | { readonly reads: "over-range"; readonly as: "kind" | "known-good part" }
  | {
      readonly reads: "volts";
      readonly low: number;
      readonly high: number;
      readonly as: "plain" | "parallel path" | "known-good part";
    };

/** Forward drop of a silicon junction on a meter's diode check [V]. @source diode-check-band */
export const PLAIN_BAND = { low: 0.4, high: 0.9 } as const;
/** Body diode of a transistor, source to drain [V]. @source diode-check-band low end, common-practice */
export const BODY_DIODE_BAND = { low: 0.35, high: 0.9 } as const;
/** A bank with a second path in parallel: 0.1 to 0.2 V as a rule; room left on both sides [V]. @source common-practice */
export const PARALLEL_PATH_BAND = { low: 0.05, high: 0.35 } as const;

/** Good parts of one number on one meter lie within this of each other [V]: 15 °C and a few mV. @source common-practice */
export const PART_SPREAD = 0.05;
/** Temperatures of two bench readings that nobody noted differ by up to 10 °C [V]. @source common-practice −2 mV/°C */
const UNNOTED_TEMPERATURE = 0.02;
/** Six forward readings are held against their intervals at once: one in a hundred may fall out. */
const COVERAGE = 0.99;

const ANYTHING: Expected = { reads: "anything" };
const BLOCKS: Expected = { reads: "over-range", as: "kind" };

/** What the kind of circuit promises for a bank; nothing where it is not known. */
export function expectedOfKind(
  kind: BridgeKind,
  bank: Bank,
): { readonly forward: Expected; readonly reverse: Expected } {
  const plain = (band: Required<Interval>): Expected => ({ reads: "volts", ...band, as: "plain" });
  switch (kind) {
    case "unknown":
      return { forward: ANYTHING, reverse: ANYTHING };
    case "mosfet":
      return { forward: plain(BODY_DIODE_BAND), reverse: BLOCKS };
    case "plain diodes":
      return { forward: plain(PLAIN_BAND), reverse: BLOCKS };
    case "parallel path":
    case "parallel path lower":
      if ((bank === "upper") !== (kind === "parallel path")) return { forward: plain(PLAIN_BAND), reverse: BLOCKS };
      return { forward: { reads: "volts", ...PARALLEL_PATH_BAND, as: "parallel path" }, reverse: BLOCKS };
    case "controlled upper":
    case "controlled lower":
      if ((bank === "upper") !== (kind === "controlled upper")) return { forward: plain(PLAIN_BAND), reverse: BLOCKS };
      return { forward: BLOCKS, reverse: BLOCKS };
  }
}

/**
 * What known-good parts of the same number show in one cell: over-range where all of them do, an
 * interval where all of them show volts, nothing where they disagree or were not read.
 */
function expectedInCell(
  parts: readonly DiodeBlock[],
  row: Row,
  phase: number,
  seen: Seen,
  check: DiodeCheck,
): Expected {
  const shown = parts.map((part) => seen(part[row][phase])).filter((display) => display.shows !== "nothing");
  const volts = shown.flatMap((display) => ("volts" in display ? [display.volts] : []));
  if (shown.length === 0) return ANYTHING;
  if (volts.length === 0) return { reads: "over-range", as: "known-good part" };
  const interval = volts.length === shown.length ? knownGoodVolts(volts, check) : undefined;
  return interval ? { reads: "volts", low: interval.low, high: interval.high, as: "known-good part" } : ANYTHING;
}

function knownGoodVolts(volts: readonly number[], { meter = TYPICAL_HANDHELD }: DiodeCheck): KnownGood | undefined {
  const range = rangeFor(meter, "diode", Math.max(...volts));
  const u = readingUncertainty(Math.max(...volts), range);
  const interval = knownGood(volts, {
    coverage: COVERAGE,
    // Two readings are compared, the good part's and this one's, at temperatures that were not noted.
    meter: 2 * Math.hypot(u, u, rectangular(UNNOTED_TEMPERATURE)),
    step: range.resolution,
    spread: PART_SPREAD,
  });
  return interval.ok ? interval.value : undefined;
}

export type Expectations = Readonly<Record<Row, readonly Expected[]>>;

/** What the known-good parts show in every cell, leads the right way round. */
export function expectedOfParts(parts: readonly DiodeBlock[], check: DiodeCheck): Expectations {
  const seen = seenWith(check);
  const straight = parts.map((part) => uncrossed(part, hasSwappedLeads(part, seen)));
  const row = (name: Row) => check[name].map((_, phase) => expectedInCell(straight, name, phase, seen, check));
  return {
    upperForward: row("upperForward"),
    lowerForward: row("lowerForward"),
    upperReverse: row("upperReverse"),
    lowerReverse: row("lowerReverse"),
  };
}
