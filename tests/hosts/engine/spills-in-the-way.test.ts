import { IFormulaRuntimeService } from "@univerjs/engine-formula";
import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import type { Cell } from "../../../src/core/cell";
import type { CellWrite, Step } from "../../../src/workbook/port";

/** Whether another spill lies where one would go: what is answered from a list, held against the engine's own search. */

/** What the engine asks, of each cell of a spill. */
interface Search {
  _isInOtherArrayFormulaRange(...asked: readonly [string, string, number, number, number, number]): boolean;
}

let grid: HeadlessGrid;
beforeEach(() => (grid = openHeadlessGrid("Job")));
afterEach(() => grid.close());

function write(cells: string, values: readonly (readonly CellWrite[])[]): Step {
  return { do: "write", at: { sheet: "Job", ...parseRange(cells)! }, values };
}

async function read(cells: string): Promise<Cell[][]> {
  const { values } = await grid.workbook.read({ sheet: "Job", ...parseRange(cells)! });
  return values.map((row) => [...row]);
}

it("gives the engine's own answer for each cell of each spill, edit after edit", async () => {
  const service = grid.engine.injector.get(IFormulaRuntimeService);
  const listed = service as unknown as Search;
  const own = Object.getPrototypeOf(service) as Search;
  const answers = listed._isInOtherArrayFormulaRange.bind(listed);
  const given: boolean[] = [];
  const expected: boolean[] = [];
  listed._isInOtherArrayFormulaRange = (...asked) => {
    const answer = answers(...asked);
    given.push(answer);
    expected.push(own._isInOtherArrayFormulaRange.call(service, ...asked));
    return answer;
  };
  await grid.workbook.apply([
    write("A1:B1", [[3, 2]]),
    write("D1", [[{ formula: "=SEQUENCE(A1)" }]]),
    write("C3", [[{ formula: "=SEQUENCE(1,B1)" }]]),
    write("F1", [[{ formula: "=SEQUENCE(A1,B1)" }]]),
  ]);
  await read("A1:H9");
  for (const [rows, columns] of [
    [5, 2],
    [2, 4],
    [2, 1],
    [6, 5],
    [3, 2],
  ]) {
    await grid.workbook.apply([write("A1:B1", [[rows!, columns!]])]);
    await read("A1:H9");
  }
  expect(given).toEqual(expected);
  expect(given).toContain(true);
  expect(given).toContain(false);
});

it("refuses a spill the cells of another, and grants them when that has gone", async () => {
  await grid.workbook.apply([write("A2", [[{ formula: "=SEQUENCE(1,3)" }]])]);
  expect(await read("A2:C2")).toEqual([[1, 2, 3]]);
  await grid.workbook.apply([write("B1", [[{ formula: "=SEQUENCE(3)" }]])]);
  expect(await read("A2:C2")).toEqual([[1, 2, 3]]);
  expect(await read("B1")).toEqual([[expect.objectContaining({ error: "#SPILL!" })]]);
  await grid.workbook.apply([write("A2", [[""]]), write("B1", [[{ formula: "=SEQUENCE(3)" }]])]);
  expect(await read("B1:B3")).toEqual([[1], [2], [3]]);
});
