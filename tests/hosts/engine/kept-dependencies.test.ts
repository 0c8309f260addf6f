import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import type { Cell } from "../../../src/core/cell";
import type { CellWrite, Step } from "../../../src/workbook/port";

/** What the formulas read is listed once and kept; each of these changes what they read. */

let grid: HeadlessGrid;
beforeEach(() => (grid = openHeadlessGrid("Job")));
afterEach(() => grid.close());

const write = (cells: string, values: readonly (readonly CellWrite[])[], sheet = "Job"): Step => ({
  do: "write",
  at: { sheet, ...parseRange(cells)! },
  values,
});

async function after(steps: readonly Step[], cell: string, sheet = "Job"): Promise<Cell> {
  await grid.workbook.apply(steps);
  return (await grid.workbook.read({ sheet, ...parseRange(cell)! })).values[0]![0];
}

it("calculates what reads an edited cell, edit after edit, and nothing else", async () => {
  await grid.workbook.apply([write("A1:C1", [[1, { formula: "=A1*2" }, { formula: "=B1+SUM(A1:A3)" }]])]);
  expect(await after([write("A1", [[5]])], "C1")).toBe(15);
  expect(await after([write("A2", [[7]])], "C1")).toBe(22);
  expect(await after([write("A9", [[100]])], "C1")).toBe(22);
  expect(await after([write("A1", [[6]])], "C1")).toBe(25);
});

it("follows a formula that is another one, one that is new and one that is gone", async () => {
  await grid.workbook.apply([
    write("A1:B2", [
      [1, { formula: "=A1" }],
      [10, { formula: "=A1+A2" }],
    ]),
  ]);
  expect(await after([write("A1", [[2]])], "B2")).toBe(12);
  expect(await after([write("B2", [[{ formula: "=A2*3" }]])], "B2")).toBe(30);
  expect(await after([write("A1", [[3]])], "B2")).toBe(30);
  expect(await after([write("A2", [[11]])], "B2")).toBe(33);
  await grid.workbook.apply([write("C1", [[{ formula: "=B2&B1" }]])]);
  expect(await after([write("A1", [[4]])], "C1")).toBe("334");
  await grid.workbook.apply([write("B2", [["typed over"]])]);
  expect(await after([write("A2", [[12]])], "C1")).toBe("typed over4");
});

it("follows a spill that grows, and what reads it", async () => {
  await grid.workbook.apply([
    write("A1:B3", [
      [1, "x"],
      [2, "x"],
      [3, ""],
    ]),
    write("D1:E1", [[{ formula: '=FILTER(A1:A3,B1:B3="x")' }, { formula: "=SUM(D1:D3)" }]]),
  ]);
  expect(await after([], "E1")).toBe(3);
  expect(await after([write("B3", [["x"]])], "E1")).toBe(6);
  expect(await after([write("A3", [[10]])], "E1")).toBe(13);
});

it("follows a cell that a formula points at only while it is calculated", async () => {
  await grid.workbook.apply([
    write("A1:C3", [
      [1, "A1", { formula: "=INDIRECT(B1)" }],
      [2, "", { formula: "=OFFSET(A1,1,0)" }],
      [3, "", { formula: "=C1+C2" }],
    ]),
  ]);
  expect(await after([write("A2", [[20]])], "C3")).toBe(21);
  expect(await after([write("A1", [[10]])], "C3")).toBe(30);
  expect(await after([write("B1", [["A3"]])], "C3")).toBe(23);
  expect(await after([write("A3", [[30]])], "C3")).toBe(50);
});

it("follows a sheet that comes, and formulas that read it", async () => {
  await grid.workbook.apply([write("A1:B1", [[1, { formula: "=A1*10" }]])]);
  expect(await after([write("A1", [[2]])], "B1")).toBe(20);
  await grid.workbook.apply([{ do: "add sheet", sheet: "Other" }, write("A1", [[5]], "Other")]);
  expect(await after([write("B1", [[{ formula: "=Other!A1+A1" }]])], "B1")).toBe(7);
  expect(await after([write("A1", [[6]], "Other")], "B1")).toBe(8);
  expect(await after([write("A1", [[3]])], "B1")).toBe(9);
});
