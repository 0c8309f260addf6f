import { isFormulaString } from "@univerjs/core";
import { ListValidator } from "@univerjs/sheets-data-validation";

const asWritten = ListValidator.prototype.isValidType;

/**
 * Takes a word of a list in any capitals for that word, as everything that reads the cell does: AGM got the
 * mark of a wrong word, and a tip that asked for agm.
 */
export function acceptAnyCapitals(): void {
  ListValidator.prototype.isValidType = async function (cell, formula, rule) {
    if (await asWritten.call(this, cell, formula, rule)) return true;
    const { formula1 } = rule;
    if (typeof cell.value !== "string" || formula1 === undefined || isFormulaString(formula1)) return false;
    const value = cell.value.toLowerCase();
    return asWritten.call(this, { ...cell, value }, formula, { ...rule, formula1: formula1.toLowerCase() });
  };
}
