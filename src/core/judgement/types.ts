import type { SourceId } from "../sources";

/** State of one reading. `unsure`: inside the measurement's own uncertainty, or no sourced limit. */
export type ReadingState = "pass" | "fail" | "unsure" | "not read";

/** State of a part. */
export type PartState = "serviceable" | "faulty" | "suspect" | "unproven";

/** Where a limit comes from, in the order in which they are asked. */
export type LimitOrigin =
  | { readonly from: "machine data"; readonly words: string }
  | { readonly from: "known-good parts"; readonly count: number; readonly words: string }
  | { readonly from: "computed"; readonly words: string }
  | { readonly from: "published"; readonly source: SourceId; readonly words: string };

/** The two ends of an interval; a side that is left out has no end. */
export interface Interval {
  readonly low?: number;
  readonly high?: number;
}

/**
 * An interval that a reading should lie in, in the reading's unit; at least one side is given, save
 * where sister readings decide and no number stands for them.
 */
export interface Limit extends Interval {
  readonly origin: LimitOrigin;
  /** Standard uncertainty of the limit itself, in its unit; it adds to the reading's. */
  readonly u?: number;
  /**
   * Where a condition that the limit depends on is not known: what the limit may at most be. A
   * reading passes by the limit itself and fails only outside this; a side left out cannot fail.
   */
  readonly lenient?: Interval;
}

/** What people in the trade quote for a reading: shown beside a judgement, never deciding it. */
export interface CustomaryBand extends Interval {
  readonly words: string;
}

export interface Judged {
  readonly state: ReadingState;
  readonly limit?: Limit;
  /** Chance that the true value conforms, 0 to 1; absent where nothing was judged. */
  readonly chance?: number;
  /** One sentence: the reading against the limit, the limit's origin in words. */
  readonly reason: string;
  readonly customary?: CustomaryBand;
}
