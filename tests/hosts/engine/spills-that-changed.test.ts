import { IFormulaRuntimeService, Interpreter, type FunctionVariantType } from "@univerjs/engine-formula";
import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import type { Cell } from "../../../src/core/cell";
import type { CellWrite, Step } from "../../../src/workbook/port";

/** After the formulas that spill, the calculation goes on from the cells whose value is another one. */

let grid: HeadlessGrid;
/** Rows of column E, which read the spill of C1, that were calculated; E1 reads the formula's own cell. */
let read: Set<number>;

beforeEach(async () => {
  grid = openHeadlessGrid("Job");
  await grid.workbook.apply([
    write("A1:A3", [[1], [2], [30]]),
    write("C1", [[{ formula: '=IF(A1:A3>9,"high","low")' }]]),
    write("E1:E3", [[{ formula: "=UPPER(C1)" }], [{ formula: "=UPPER(C2)" }], [{ formula: "=UPPER(C3)" }]]),
  ]);
  expect(await column("E1:E3")).toEqual(["LOW", "LOW", "HIGH"]);
  read = new Set();
  const interpreter = grid.engine.injector.get(Interpreter);
  const runtime = grid.engine.injector.get(IFormulaRuntimeService);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (node): FunctionVariantType => {
    if (runtime.currentColumn === 4) read.add(runtime.currentRow + 1);
    return execute(node);
  };
});
afterEach(() => grid.close());

function write(cells: string, values: readonly (readonly CellWrite[])[]): Step {
  return { do: "write", at: { sheet: "Job", ...parseRange(cells)! }, values };
}

async function column(cells: string): Promise<Cell[]> {
  const { values } = await grid.workbook.read({ sheet: "Job", ...parseRange(cells)! });
  return values.map((row) => row[0]);
}

it("gives every reader of the spill its value, edit after edit", async () => {
  for (const [typed, expected] of [
    [12, ["LOW", "HIGH", "HIGH"]],
    [13, ["LOW", "HIGH", "HIGH"]],
    [3, ["LOW", "LOW", "HIGH"]],
  ] as const) {
    await grid.workbook.apply([write("A2", [[typed]])]);
    expect(await column("E1:E3")).toEqual(expected);
  }
});

it("leaves alone what reads cells of a spill that came out as they were", async () => {
  await grid.workbook.apply([write("A2", [[4]])]);
  expect(await column("E1:E3")).toEqual(["LOW", "LOW", "HIGH"]);
  expect(read.has(2) || read.has(3)).toBe(false);
  await grid.workbook.apply([write("A3", [[5]])]);
  expect(await column("E1:E3")).toEqual(["LOW", "LOW", "LOW"]);
  expect(read.has(2)).toBe(false);
  expect(read.has(3)).toBe(true);
});

it("follows a spill that is longer than it was as a whole", async () => {
  await grid.workbook.apply([
    write("G1", [[{ formula: "=FILTER(A1:A3,A1:A3>1)" }]]),
    write("I1", [[{ formula: "=COUNT(G1:G9)" }]]),
  ]);
  expect(await column("I1")).toEqual([2]);
  await grid.workbook.apply([write("A1", [[7]])]);
  expect(await column("I1")).toEqual([3]);
});

it("gives up the cells of a spill that is shorter than it was, for whatever reads them", async () => {
  await grid.workbook.apply([
    write("G1", [[{ formula: "=FILTER(A1:A3,A1:A3>1)" }]]),
    write("I1:I4", [
      [{ formula: "=COUNT(G1:G9)" }],
      [{ formula: '=IF(ISBLANK(G2),"given up",G2)' }],
      [{ formula: "=SUM(G3:H4)" }],
      [{ formula: "=I3+1" }],
    ]),
    write("A1", [[8]]),
  ]);
  expect(await column("I1:I4")).toEqual([3, 2, 30, 31]);
  const typed = async (cell: string, value: CellWrite) => {
    await grid.workbook.apply([write(cell, [[value]])]);
    return column("I1:I4");
  };
  // Three values, two, one, and one that is an error; then all of them once more.
  expect(await typed("A3", 0)).toEqual([2, 2, 0, 1]);
  expect(await typed("A2", 0)).toEqual([1, "given up", 0, 1]);
  expect(await column("G1:G3")).toEqual([8, "", ""]);
  expect(await typed("A1", 0)).toEqual([0, "given up", 0, 1]);
  await grid.workbook.apply([write("A1:A3", [[4], [5], [6]])]);
  expect(await column("I1:I4")).toEqual([3, 5, 6, 7]);
  expect(await typed("G1", 9)).toEqual([1, "given up", 0, 1]);
});
