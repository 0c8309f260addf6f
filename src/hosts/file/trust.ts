import { isCellError } from "../../core/cell";
import type { Area } from "../../workbook/port";
import type { CalculatedBook } from "../engine/calculate-book";
import { formulaFault } from "../engine/formula-fault";
import { knownFunctions } from "../engine/known-functions";
import { functionNames } from "./file-formula";
import type { FormulaCell } from "./formula-cells";

/** Errors that values alone can bring about; the others may as well be a lack of the engine. */
const ARITHMETIC = new Set(["#DIV/0!", "#NUM!"]);
const LOOKUPS = /^(?:[XVH]?LOOKUP|X?MATCH|NA|IFS|SWITCH|RANK(?:\.EQ|\.AVG)?|MODE(?:\.SNGL)?|FILTER)$/u;

/** Why a formula must not be handed to the engine at all; `undefined` where it may. */
export function whyNotCalculated({ formula, reach }: FormulaCell): string | undefined {
  const unknown = functionNames(formula).find((name) => !knownFunctions().has(name));
  if (unknown) return `${unknown} is not known here`;
  if (reach.foreign !== undefined) return `${reach.foreign} is not in this file`;
  return formulaFault(formula) ? "the formula cannot be read here" : undefined;
}

/**
 * Why what the engine gives for a formula must not replace the last value; `undefined` where it may.
 * An error counts only where it comes from our own functions, from a cell the formula reads, or from
 * arithmetic: a built-in function that the engine lacks or treats otherwise gives errors too.
 */
export function whyNotTrusted(
  { sheet, stored, formula, reach }: FormulaCell,
  calculated: CalculatedBook,
  holdsError: (area: Area) => boolean,
): string | undefined {
  const size = calculated.spill(sheet, stored.row, stored.column);
  if (stored.formula?.kind !== "array" && size.rows * size.columns > 1) {
    return `it gives ${size.rows} × ${size.columns} values but is stored for one cell; enter it again in the spreadsheet`;
  }
  const value = calculated.value(sheet, stored.row, stored.column);
  if (!isCellError(value)) return undefined;
  if (value.error === "#SPILL!") return "there is no room for its result; clear the cells beside and below it";
  if (value.message !== undefined || ARITHMETIC.has(value.error)) return undefined;
  if (isCellError(stored.value) && stored.value.error === value.error) return undefined;
  if (value.error === "#N/A" && functionNames(formula).some((name) => LOOKUPS.test(name))) return undefined;
  if (reach.areas.some(holdsError)) return undefined;
  return `it gives ${value.error} here`;
}
