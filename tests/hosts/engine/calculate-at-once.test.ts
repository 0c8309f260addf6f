import { Direction, ICommandService } from "@univerjs/core";
import {
  BaseFunction,
  IFormulaDependencyGenerator,
  IFormulaRuntimeService,
  IFunctionService,
  SetFormulaCalculationStartMutation,
  type BaseValueObject,
} from "@univerjs/engine-formula";
import { InsertRowByRangeCommand } from "@univerjs/sheets";
import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import type { Cell } from "../../../src/core/cell";
import type { CellWrite, Step } from "../../../src/workbook/port";

let grid: HeadlessGrid;
let starts: number;
beforeEach(async () => {
  grid = openHeadlessGrid("Job");
  await grid.workbook.apply([write("A1:B1", [[1, { formula: "=A1*2" }]])]);
  await value("B1");
  starts = 0;
  grid.engine.injector.get(ICommandService).onCommandExecuted(({ id }) => {
    if (id === SetFormulaCalculationStartMutation.id) starts += 1;
  });
});
afterEach(() => grid.close());

function write(cells: string, values: readonly (readonly CellWrite[])[]): Step {
  return { do: "write", at: { sheet: "Job", ...parseRange(cells)! }, values };
}

async function value(cell: string): Promise<Cell> {
  return (await grid.workbook.read({ sheet: "Job", ...parseRange(cell)! })).values[0]![0];
}

it("has calculated a typed value before the first timer or frame could come", async () => {
  let passed = false;
  const timer = setTimeout(() => (passed = true), 0);
  await grid.workbook.apply([write("A1", [[4]])]);
  expect(await value("B1")).toBe(8);
  expect(passed).toBe(false);
  clearTimeout(timer);
});

it("makes one calculation of all that is changed in one go", async () => {
  await grid.workbook.apply([write("A1", [[5]]), write("A2", [[6]]), write("B2", [[{ formula: "=A2+B1" }]])]);
  expect(await value("B2")).toBe(16);
  expect(starts).toBe(1);
});

it("follows every edit that comes while another one is calculated", async () => {
  const applied = [7, 8, 9].map((typed) => grid.workbook.apply([write("A1", [[typed]])]));
  const other = grid.workbook.apply([write("B3", [[{ formula: "=A1&B1" }]]), write("A4", [["typed"]])]);
  await Promise.all([...applied, other]);
  expect(await value("B1")).toBe(18);
  expect(await value("B3")).toBe("918");
});

it("goes on with the next edit where a calculation broke, and says so", async () => {
  const said = jest.spyOn(console, "error").mockImplementation(() => undefined);
  try {
    const generator = grid.engine.injector.get(IFormulaDependencyGenerator);
    const broken = jest.spyOn(generator, "generate").mockRejectedValueOnce(new Error("broken"));
    await grid.workbook.apply([write("A1", [[10]])]);
    expect(await value("A1")).toBe(10);
    expect(said).toHaveBeenCalledTimes(1);
    broken.mockRestore();
    await grid.workbook.apply([write("A1", [[11]])]);
    expect(await value("B1")).toBe(22);
  } finally {
    said.mockRestore();
  }
});

it("goes on where a calculation never says that it ended", async () => {
  jest.useFakeTimers({ doNotFake: ["queueMicrotask", "nextTick", "performance", "setImmediate"] });
  try {
    const generator = grid.engine.injector.get(IFormulaDependencyGenerator);
    const endless = jest.spyOn(generator, "generate").mockReturnValueOnce(new Promise(() => undefined));
    await grid.workbook.apply([write("A1", [[12]])]);
    while (endless.mock.calls.length === 0) await Promise.resolve();
    await grid.workbook.apply([write("A1", [[13]])]);
    await jest.advanceTimersByTimeAsync(29_000);
    expect(starts).toBe(1);
    await jest.advanceTimersByTimeAsync(2_000);
    expect(starts).toBe(2);
  } finally {
    jest.useRealTimers();
  }
});

describe("a change that comes while formulas are calculated", () => {
  /** Rows 2 to 41 in turn a formula and a value; each formula takes so long that the engine pauses in between. */
  const FORMULAS = 20;
  const rows = Array.from({ length: FORMULAS }, (_, i) => [
    [{ formula: "=SLOWLY($A$1)+ROW()" }],
    [`typed ${i}`],
  ]).flat();
  /** Resolves at the first pause of the calculation that comes next. */
  const paused = () =>
    new Promise<void>((resolve) => {
      const running = jest.spyOn(grid.engine.injector.get(IFormulaRuntimeService), "setCompletedFormulasCount");
      running.mockImplementation(() => {
        running.mockRestore();
        resolve();
      });
    });
  beforeEach(async () => {
    grid.engine.injector.get(IFunctionService).registerExecutors(new Slowly("SLOWLY"));
    await grid.workbook.apply([write(`C2:C${rows.length + 1}`, rows)]);
    await value("C2");
  });
  const column = async (cells: string) =>
    (await grid.workbook.read({ sheet: "Job", ...parseRange(cells)! })).values.map(([cell]) => cell);
  const changeMidway = async (change: () => Promise<unknown>) => {
    const pause = paused();
    await grid.workbook.apply([write("A1", [[100]])]);
    await pause;
    await change();
  };
  const insertRow = () => {
    const { book, injector } = grid.engine;
    const at = { unitId: book.getUnitId(), subUnitId: book.getActiveSheet().getSheetId() };
    const range = { startRow: 1, endRow: 1, startColumn: 0, endColumn: 9 };
    return injector
      .get(ICommandService)
      .executeCommand(InsertRowByRangeCommand.id, { ...at, range, direction: Direction.DOWN });
  };

  it("never writes a result over what a row that was put in has moved to its place", async () => {
    await changeMidway(insertRow);
    expect(await column("C3:C8")).toEqual([103, "typed 0", 105, "typed 1", 107, "typed 2"]);
  });

  it("never writes a result over what was typed in the formula's place", async () => {
    await changeMidway(() => grid.workbook.apply([write("C4", [["by hand"]])]));
    expect(await column("C2:C7")).toEqual([102, "typed 0", "by hand", "typed 1", 106, "typed 2"]);
  });
});

class Slowly extends BaseFunction {
  override minParams = 1;
  override maxParams = 1;
  override calculate(given: BaseValueObject): BaseValueObject {
    const until = performance.now() + 25;
    while (performance.now() < until);
    return given;
  }
}
