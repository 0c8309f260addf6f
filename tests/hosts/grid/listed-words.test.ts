import { DataValidationType } from "@univerjs/core";
import { ListValidator } from "@univerjs/sheets-data-validation";
import { acceptAnyCapitals } from "../../../src/hosts/grid/listed-words";

/** Whether the grid takes a word for one of the list, and puts no mark at it. */
function takes(value: string | number): Promise<boolean> {
  const rule = { uid: "r", ranges: [], type: DataValidationType.LIST, formula1: "flooded,agm,three-phase" };
  type Arguments = Parameters<ListValidator["isValidType"]>;
  const [cell, formula] = [{ value }, {}] as unknown as [Arguments[0], Arguments[1]];
  return ListValidator.prototype.isValidType.call(Object.create(ListValidator.prototype), cell, formula, rule);
}

it.each([
  ["agm", true],
  ["AGM", true],
  ["Three-phase", true],
  ["AGM from the donor", false],
  ["ag", false],
  [12, false],
])("a list takes %p: %p", async (word, taken) => {
  acceptAnyCapitals();
  expect(await takes(word)).toBe(taken);
});
