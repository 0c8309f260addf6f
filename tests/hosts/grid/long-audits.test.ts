import type { Cell } from "../../../src/core/cell";
import { forgetAudits } from "../../../src/core/fleet/audits-lately";
import { FUNCTIONS } from "../../../src/functions/registry";
import type { AuditThread, RestOfCall } from "../../../src/hosts/audit-threads/audit-in-parts";
import { PutOff } from "../../../src/hosts/engine/put-off";
import { openHeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { withLongAudits } from "../../../src/hosts/grid/long-audits";
import type { CellWrite } from "../../../src/workbook/port";
import { fleetRows } from "../../bench/fleet-rows";

const ROWS = 240;
const WORTH = 200;
const table = fleetRows(ROWS, 30);
const columns = table[0]!.length;

/** All of it in one call, of which nothing is known beforehand. */
function whole(cells: Cell[][]): Cell[][] {
  forgetAudits();
  const audited = FUNCTIONS.AUDIT!(cells);
  forgetAudits();
  return audited;
}

/** Rows that are not the same in both, told without all the others. */
function unlike(cells: readonly (readonly Cell[])[], others: Cell[][]): unknown[] {
  expect(cells).toHaveLength(others.length);
  return cells
    .flatMap((row, r) => (JSON.stringify(row) === JSON.stringify(others[r]) ? [] : [[r, row, others[r]]]))
    .slice(0, 5);
}

async function auditedInGrid(answer: (rows: unknown, rest: RestOfCall) => Cell[][]) {
  const started = { threads: 0 };
  const start = (rest: RestOfCall): AuditThread => {
    started.threads += 1;
    return { audit: async (rows) => answer(rows, rest), done: () => undefined, end: () => undefined };
  };
  const putOff = new PutOff();
  const grid = openHeadlessGrid("Fleet", { functions: withLongAudits(FUNCTIONS, putOff, start, 2, WORTH), putOff });
  const at = (row: number, column: number, height: number, width: number) => ({
    sheet: "Fleet",
    row,
    column,
    rows: height,
    columns: width,
  });
  const write = (row: number, column: number, values: readonly (readonly CellWrite[])[]) =>
    grid.workbook.apply([{ do: "write", at: at(row, column, values.length, values[0]!.length), values }]);
  await write(0, 0, table as CellWrite[][]);
  await write(0, columns + 1, [[{ formula: `=CHG.AUDIT(A1:I${ROWS + 1})` }]]);
  const results = async () => (await grid.workbook.read(at(0, columns + 1, ROWS + 1, 7))).values;
  return { started, write, results, close: () => grid.close() };
}

beforeEach(forgetAudits);

it("calls threads for a long table, and writes what one call gives", async () => {
  const grid = await auditedInGrid((rows, rest) => FUNCTIONS.AUDIT!(rows, ...rest));
  expect(unlike(await grid.results(), whole(table))).toEqual([]);
  expect(grid.started.threads).toBe(1);
  grid.close();
});

it("goes through a reading that is typed afterwards by itself", async () => {
  const grid = await auditedInGrid((rows, rest) => FUNCTIONS.AUDIT!(rows, ...rest));
  await grid.results();
  await grid.write(31, 1, [[11.2]]);
  const typed = table.map((row, r) => (r === 31 ? row.with(1, 11.2) : row));
  expect(unlike(await grid.results(), whole(typed))).toEqual([]);
  expect(grid.started.threads).toBe(1);
  grid.close();
});

it("does the work by itself where the threads fail", async () => {
  const grid = await auditedInGrid(() => {
    throw new Error("gone");
  });
  expect(unlike(await grid.results(), whole(table))).toEqual([]);
  grid.close();
});
