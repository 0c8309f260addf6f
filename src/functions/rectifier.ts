/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { diodeCells } from "../core/rectifier/diodes-to-cells";
import { knownGoodCells } from "../core/rectifier/known-good-cells";
import { andThen, ok } from "../core/result";
import { asTyped, number, optional, readOne, toBlock } from "./arguments";
import type { FunctionTable } from "./function-table";
import { blockOrFault } from "./over-cells";

const COVERAGE = optional(number("coverage", { unit: "1", min: 0.5, max: 0.9999 }), 0.95);
const CONFIDENCE = optional(number("confidence", { unit: "1", min: 0.5, max: 0.9999 }), 0.95);

/**
 * Judges the diode check of a regulator-rectifier: every reading, and the power devices as a part. A bank near 0.1 V is good where a second path lies in parallel, so it is held against the kind of circuit, known-good parts and its sisters.
 * @customfunction DIODES
 * @param block Readings in volts or OL, 4 rows (upper forward, lower forward, upper reverse, lower reverse) × 3 phases, 2 for single phase; or a part a row with 12 (8) cells
 * @param [kind] What is inside: plain diodes, parallel path, parallel path lower, controlled upper, controlled lower, mosfet, unknown (unknown)
 * @param [knownGood] Known-good parts of the same number read the same: their blocks below each other, or a part a row
 * @param [meter] Accuracy of the shop's meter: rows of function, up to, ± %, ± counts, smallest step; a typical hand-held one where blank
 * @param [temp] Temperature of the unit when it was read, °C
 * @param [testCurrent] Test current of the meter's diode check, mA
 * @returns The block of states with a row below it: state of the part, reason, what to do next; for a part a row the same side by side
 * @example =CHG.DIODES({0.12,0.13,0.12;0.5,0.51,0.5;"OL","OL","OL";"OL","OL","OL"}, "parallel path") gives parallel path, parallel path, parallel path
 */
export function diodes(
  block: any[][],
  kind?: any[][],
  knownGood?: any[][],
  meter?: any[][],
  temp?: any,
  testCurrent?: any,
): any[][] {
  return blockOrFault(
    andThen(readOne(temp, asTyped("temperature")), (temperature) =>
      andThen(readOne(testCurrent, asTyped("test current")), (current) =>
        diodeCells({
          block: toBlock(block),
          kind: toBlock(kind),
          knownGood: toBlock(knownGood),
          meter: toBlock(meter),
          temperature,
          testCurrent: current,
        }),
      ),
    ),
  );
}

/**
 * What good parts of one number read: from three parts on a two-sided tolerance interval with the exact factor, for one or two their readings with a stated spread. Never narrower than the meter's own uncertainty.
 * @customfunction KNOWNGOOD
 * @param samples The same reading of good parts of the same number, one a part; blanks are left out
 * @param [coverage] Share of good parts that the interval shall hold, 0.5 to 0.9999 (0.95)
 * @param [confidence] Chance that it does, 0.5 to 0.9999 (0.95)
 * @param [reading] Name or id of the reading, such as Winding resistance, A–B (a diode check)
 * @param [meter] Accuracy of the shop's meter: rows of function, up to, ± %, ± counts, smallest step; a typical hand-held one where blank
 * @returns Low, high, number of parts, mean, standard deviation, factor and how they are compared, side by side
 * @example =CHG.KNOWNGOOD({0.5;0.51;0.52;0.53;0.54}) gives 0.44, 0.6, 5, 0.52, 0.0158, 5.08 and the way they are compared
 */
export function knownGood(samples: any[][], coverage?: any, confidence?: any, reading?: any, meter?: any[][]): any[][] {
  return blockOrFault(
    andThen(readOne(coverage, COVERAGE), (share) =>
      andThen(readOne(confidence, CONFIDENCE), (chance) =>
        andThen(readOne(reading, asTyped("reading")), (name) =>
          andThen(
            knownGoodCells({
              samples: toBlock(samples),
              coverage: share!,
              confidence: chance!,
              reading: name,
              meter: toBlock(meter),
            }),
            (cells) => ok([cells ?? ["", "", "", "", "", "", ""]]),
          ),
        ),
      ),
    ),
  );
}

export const rectifierFunctions = { DIODES: diodes, KNOWNGOOD: knownGood } satisfies FunctionTable;
