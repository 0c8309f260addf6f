import { TYPICAL_HANDHELD, rangeFor } from "../judgement/meter";
import { judgeNumber, type JudgeOptions } from "../judgement/judge";
import type { Judged } from "../judgement/types";
import { rectangular, rootSumSquares } from "../judgement/uncertain";
import { outside } from "../range";
import { fail, ok, type Result } from "../result";

/** Strict limit: more than this between any two cells of a charged battery makes it unserviceable. */
export const STRICT_SPREAD = 0.025;

export interface CellSpread {
  /** Highest less lowest gravity. */
  readonly spread: number;
  /** Number of the lowest cell, counted from 1 as read. */
  readonly lowest: number;
  readonly judged: Judged;
}

/**
 * Judges the spread between the cells of one battery. Temperature and the hydrometer's own error
 * are the same for all cells and drop out; what is left is how closely it can be read.
 *
 * @param gravities - As read, two cells or more, 0.9 to 1.4; `null` is a cell not read
 * @param limit - Allowed spread, 0.005 to 0.1
 * @returns Spread, lowest cell, judgement; `missing` with fewer than two cells
 * @source tm-9-6140-200-14 paragraph 4-7
 */
export function cellSpread(
  gravities: readonly (number | null)[],
  limit = STRICT_SPREAD,
  options: JudgeOptions = {},
): Result<CellSpread> {
  const range = outside("allowed spread", limit, 0.005, 0.1, "");
  if (range) return range;
  const read = gravities.flatMap((gravity, i) => (gravity === null ? [] : [{ gravity, cell: i + 1 }]));
  if (read.length < 2) return fail({ code: "missing", what: "cell gravities", expected: "at least two cells" });
  const low = read.reduce((a, b) => (b.gravity < a.gravity ? b : a));
  const high = read.reduce((a, b) => (b.gravity > a.gravity ? b : a));
  const spread = Number((high.gravity - low.gravity).toFixed(6));
  const judged = judgeNumber(
    { label: "Spread between cells", unit: "SG", decimals: 3 },
    spread,
    spreadUncertainty(options),
    { high: limit, origin: { from: "published", source: "tm-9-6140-200-14", words: spreadWords(limit) } },
    options.rule,
  );
  return ok({ spread, lowest: low.cell, judged });
}

/** Two readings to the nearest step of the scale. */
export function spreadUncertainty({ meter = TYPICAL_HANDHELD }: JudgeOptions): number {
  const step = rangeFor(meter, "hydrometer", 1.25).resolution;
  return rootSumSquares(rectangular(step / 2), rectangular(step / 2));
}

export function spreadWords(limit: number): string {
  return limit === STRICT_SPREAD
    ? "between any two cells of a charged battery, US Army TM 9-6140-200-14"
    : "spread set by the shop";
}
