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

/** An interval that a reading should lie in, in the reading's unit; at least one side is given. */
export interface Limit {
  readonly low?: number;
  readonly high?: number;
  readonly origin: LimitOrigin;
}

export interface Judged {
  readonly state: ReadingState;
  readonly limit?: Limit;
  /** Chance that the true value conforms, 0 to 1; absent where nothing was judged. */
  readonly chance?: number;
  /** One sentence: the reading against the limit, the limit's origin in words. */
  readonly reason: string;
}
