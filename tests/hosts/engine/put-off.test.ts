import { ICommandService } from "@univerjs/core";
import type { Cell } from "../../../src/core/cell";
import { PutOff } from "../../../src/hosts/engine/put-off";
import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import type { CellWrite } from "../../../src/workbook/port";

/** What `=CHG.FETCHED(key)` gives once it has been fetched; each fetching ends when the test says so. */
let fetched: Map<string, number>;
let fetches: { readonly key: string; done: (value?: number) => void; fail: () => void }[];
/** What was told of waiting. */
let told: boolean[];
let grid: HeadlessGrid;

beforeEach(() => {
  fetched = new Map();
  fetches = [];
  told = [];
  const putOff = new PutOff((waiting) => told.push(waiting));
  const fetchIt = (key: string) =>
    new Promise<void>((resolve, reject) =>
      fetches.push({
        key,
        done: (value) => {
          if (value !== undefined) fetched.set(key, value);
          resolve();
        },
        fail: () => reject(new Error("gone")),
      }),
    );
  const FETCHED = (given: unknown) => {
    const key = String((given as Cell[][])[0]![0]);
    if (!fetched.has(key) && putOff.until(() => fetchIt(key))) return [["not looked at"]];
    return [[fetched.get(key) ?? "by itself"]];
  };
  grid = openHeadlessGrid("Job", { functions: { FETCHED }, putOff });
});
afterEach(() => grid.close());

const write = (cells: string, values: readonly (readonly CellWrite[])[]) =>
  grid.workbook.apply([{ do: "write", at: { sheet: "Job", ...parseRange(cells)! }, values }]);
const read = async (cells: string) => (await grid.workbook.read({ sheet: "Job", ...parseRange(cells)! })).values[0]!;
/** What stands there, whether it is calculated or not. */
const standing = (row: number, column: number) =>
  grid.engine.book.getActiveSheet().getCellRaw(row, column)?.v ?? undefined;
async function until(asked: number): Promise<void> {
  while (fetches.length < asked) await new Promise((resolve) => setTimeout(resolve, 5));
}
const moments = () => new Promise((resolve) => setTimeout(resolve, 50));

it("writes nothing until what a function needs has come, then everything", async () => {
  await write("A1:C1", [["one", { formula: "=CHG.FETCHED(A1)" }, { formula: "=B1*2" }]]);
  await until(1);
  await moments();
  expect([standing(0, 1), standing(0, 2)]).toEqual([undefined, undefined]);
  expect(told).toEqual([true]);
  fetches[0]!.done(21);
  expect(await read("A1:C1")).toEqual(["one", 21, 42]);
  expect(told).toEqual([true, false]);
  expect(fetches).toHaveLength(1);
});

it("asks once for what several formulas of one calculation wait for", async () => {
  await write("A1:C1", [["one", { formula: "=CHG.FETCHED(A1)" }, { formula: "=CHG.FETCHED(A1)+1" }]]);
  await until(1);
  fetches[0]!.done(1);
  expect(await read("B1:C1")).toEqual([1, 2]);
  expect(fetches).toHaveLength(1);
});

it("keeps what is typed meanwhile, and calculates it with the rest", async () => {
  await write("A1:B1", [["one", { formula: "=CHG.FETCHED(A1)" }]]);
  await until(1);
  await write("A2:B2", [[5, { formula: "=A2+B1" }]]);
  await moments();
  expect([standing(1, 0), standing(1, 1)]).toEqual([5, undefined]);
  fetches[0]!.done(10);
  expect(await read("A2:B2")).toEqual([5, 15]);
});

it("waits for a second thing after the first, and not for a third", async () => {
  const keys = ["one", "two", "three"];
  await write("A1:C1", [keys]);
  await write("A2:C2", [["A1", "B1", "C1"].map((cell) => ({ formula: `=CHG.FETCHED(${cell})` }))]);
  await until(1);
  fetches[0]!.done(1);
  await until(2);
  fetches[1]!.done(2);
  expect(await read("A2:C2")).toEqual([1, 2, "by itself"]);
  expect(fetches.map(({ key }) => key)).toEqual(["one", "two"]);
});

it("lets the function answer by itself where what it waited for fails or does not stay", async () => {
  await write("A1:B1", [["one", { formula: "=CHG.FETCHED(A1)" }]]);
  await until(1);
  fetches[0]!.fail();
  await until(2);
  fetches[1]!.done();
  expect(await read("B1:B1")).toEqual(["by itself"]);
});

it("may wait again once a calculation went through", async () => {
  await write("A1:B1", [["one", { formula: "=CHG.FETCHED(A1)" }]]);
  await until(1);
  fetches[0]!.done(1);
  expect(await read("B1:B1")).toEqual([1]);
  await write("A1", [["two"]]);
  await until(2);
  expect(standing(0, 1)).toBe(1);
  fetches[1]!.done(2);
  expect(await read("B1:B1")).toEqual([2]);
});

it("is not begun for a workbook that was closed meanwhile", async () => {
  await write("A1:B1", [["one", { formula: "=CHG.FETCHED(A1)" }]]);
  await until(1);
  const begun = jest.spyOn(grid.engine.injector.get(ICommandService), "executeCommand");
  grid.close();
  fetches[0]!.done(1);
  await moments();
  expect(begun).not.toHaveBeenCalled();
  grid = openHeadlessGrid();
});
