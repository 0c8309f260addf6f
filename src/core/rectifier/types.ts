import type { Meter } from "../judgement/meter";
import type { PartState } from "../judgement/types";
import type { Measured } from "../readings/types";

/**
 * What is inside a regulator-rectifier, as far as a diode check sees it; the words of the
 * catalogue's `bridge-kind`.
 */
export const BRIDGE_KINDS = [
  "plain diodes",
  "parallel path",
  "parallel path lower",
  "controlled upper",
  "controlled lower",
  "mosfet",
  "unknown",
] as const;
export type BridgeKind = (typeof BRIDGE_KINDS)[number];

/** Upper: phase to B+. Lower: ground to phase. */
export const BANKS = ["upper", "lower"] as const;
export type Bank = (typeof BANKS)[number];

export const PHASE_NAMES = ["A", "B", "C"] as const;
export type PhaseName = (typeof PHASE_NAMES)[number];

/** Rows of the block in which a diode check is written down, top to bottom. */
export const ROWS = ["upperForward", "lowerForward", "upperReverse", "lowerReverse"] as const;
export type Row = (typeof ROWS)[number];

/**
 * A diode check as it was read: four rows of three phases (two for single-phase units), in volts;
 * `null` where a reading was not taken.
 */
export type DiodeBlock = Readonly<Record<Row, readonly (Measured | null)[]>>;

/** What one reading of a diode check shows. */
export type DiodeState = "conducts" | "blocks" | "short" | "open" | "parallel path" | "odd one out" | "not read";

export interface DiodeCheck extends DiodeBlock {
  readonly kind?: BridgeKind;
  /** The same readings of good parts of the same number, one block a part. */
  readonly knownGood?: readonly DiodeBlock[];
  /** The meter: accuracy of its diode range, and its top, above which it shows over-range. */
  readonly meter?: Meter;
  /** Current that the meter drives through the device [mA], 0.01 to 20. */
  readonly testCurrent?: number;
  /** Temperature of the part when it was read [°C], −40 to 150. */
  readonly temperature?: number;
}

/** Something that a diode check found, with what it means for the part. */
export interface DiodeFinding {
  readonly weight: "faulty" | "suspect" | "unproven";
  readonly bank?: Bank;
  /** Empty where the finding is about the whole block. */
  readonly phases: readonly PhaseName[];
  readonly state: DiodeState;
  readonly words: string;
  readonly next: string;
}

export interface DiodesJudged {
  /** State of each reading, in the cells in which it was typed. */
  readonly readings: Readonly<Record<Row, readonly DiodeState[]>>;
  /** The power devices as a part: the check says nothing about the regulating side. */
  readonly state: PartState;
  readonly reason: string;
  readonly next: string;
  readonly findings: readonly DiodeFinding[];
  /** Faults that these readings would not show, in plain words. */
  readonly hidden: readonly string[];
  /** Forward and reverse rows exchanged: in which bank, or in both. */
  readonly leadsSwapped: "no" | "both banks" | Bank;
  /** What the readings were held against. */
  readonly heldAgainst: "known-good parts" | "kind of circuit" | "sisters only";
  /** Known-good parts used. */
  readonly knownGoodCount: number;
}
