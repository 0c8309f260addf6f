/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { conformEntered } from "../core/judgement/conformance";
import { checkWith, NOT_READ_CELLS } from "../core/limits/check-cells";
import { andThen } from "../core/result";
import { asTyped, bareNumber, number, optional, optionalOrAbsent, readOne, text, toBlock } from "./arguments";
import type { FunctionTable } from "./function-table";
import { overCells } from "./over-cells";
import { overContext } from "./over-context";
import { told } from "./told";

const RULE = optional(number("rule", { unit: "1", min: 0.5, max: 0.9999 }), 0.95);

/**
 * Chance that the true value lies within the limits, given the reading and its standard uncertainty.
 * @customfunction CONFORM
 * @param value Reading
 * @param low Lower limit, in the reading's unit; blank where there is none
 * @param high Upper limit; blank where there is none
 * @param u Standard uncertainty of the reading, same unit; 0 compares exactly
 * @returns Chance, 0 to 1
 * @example =CHG.CONFORM(10.5, 9, 11, 0.4) gives 0.894
 */
export function conform(value: any[][], low: any[][], high: any[][], u: any[][]): any[][] {
  return overCells(
    [bareNumber("value"), optionalOrAbsent(bareNumber("low")), optionalOrAbsent(bareNumber("high")), bareNumber("u")],
    conformEntered,
    [value, low, high, u],
  );
}

/**
 * Judges any reading of the catalogue: against the machine's data, else known-good parts, else what can be computed, else a published default, with the meter's uncertainty in it.
 * @customfunction CHECK
 * @param readingId Name or id of the reading, such as Rested voltage or key-off-draw
 * @param value What was read, with or without a unit (one column)
 * @param [machine] Machine data: two columns (label, value), or a header row and one row
 * @param [conditions] What else was read that it depends on, in the same form: temperature, speed, current and so on
 * @param [meter] Accuracy of the shop's meter: rows of function, up to, ± %, ± counts, smallest step; a typical hand-held one where blank
 * @param [rule] Chance from which on it passes, 0.5 to 0.9999 (0.95); it fails at one less that chance
 * @param [knownGood] Readings of known-good parts of the same number: one list, or a table with a part a row
 * @param [language] What the reason is said in: en (default) or es; the state stays a word for other formulas
 * @returns State (pass, fail, unsure, not read), low, high, chance and the reason with the limit's origin, side by side
 * @example =CHG.CHECK("key-off-draw", "60 mA") gives fail, blank, 5, 0 and the reason
 */
export function check(
  readingId: any[][],
  value: any[][],
  machine?: any[][],
  conditions?: any[][],
  meter?: any[][],
  rule?: any[][],
  knownGood?: any[][],
  language?: any[][],
): any[][] {
  return told("CHECK", language, () =>
    overContext(
      andThen(readOne(rule, RULE), (passAt) =>
        checkWith({
          machine: toBlock(machine),
          conditions: toBlock(conditions),
          meter: toBlock(meter),
          knownGood: toBlock(knownGood),
          passAt: passAt!,
        }),
      ),
      (one) => overCells([text("readingId"), asTyped("value")], one, [readingId, value], NOT_READ_CELLS),
    ),
  );
}

export const judgementFunctions = { CONFORM: conform, CHECK: check } satisfies FunctionTable;
