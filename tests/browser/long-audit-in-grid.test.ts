import type { Browser, Page } from "playwright-core";
import type { Cell } from "../../src/core/cell";
import { FUNCTIONS } from "../../src/functions/registry";
import type { Workbook } from "../../src/workbook/port";
import { fleetRows } from "../bench/fleet-rows";
import { readCells, waitUntilOpen } from "./grid";
import { launchBrowser, serveLocalPage, watchedPage, type Served } from "./launch";

jest.setTimeout(240_000);

const ROWS = 4_500;
const table = fleetRows(ROWS, 12);
const audited = (cells: Cell[][]) => FUNCTIONS.AUDIT!(cells);

let browser: Browser;
let served: Served;
let page: Page;
/** Addresses of the threads that the page has started. */
const threads: string[] = [];
beforeAll(async () => {
  served = await serveLocalPage();
  browser = await launchBrowser();
  page = (await watchedPage(browser, served.address)).page;
  page.on("worker", (worker) => threads.push(new URL(worker.url()).pathname));
  await waitUntilOpen(page);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

/** Rows of the sheet that are not as they should be, a few of them. */
async function unlike(expected: readonly (readonly Cell[])[]): Promise<unknown[]> {
  const { values } = await readCells(page, "Long", `K1:Q${expected.length}`);
  return expected
    .flatMap((row, r) => (JSON.stringify(values[r]) === JSON.stringify(row) ? [] : [[r, values[r], row]]))
    .slice(0, 3);
}

describe("the audit of a long table in the grid", () => {
  it("is worked out in threads, and comes to what one call gives", async () => {
    await page.evaluate(async (cells) => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      const at = { sheet: "Long", row: 0, column: 0, rows: cells.length, columns: cells[0]!.length };
      await workbook.apply([{ do: "add sheet", sheet: "Long" }]);
      await workbook.apply([
        { do: "write", at, values: cells as string[][] },
        {
          do: "write",
          at: { ...at, column: at.columns + 1, rows: 1, columns: 1 },
          values: [[{ formula: `=CHG.AUDIT(A1:I${cells.length})` }]],
        },
      ]);
    }, table);
    const said = page.locator("#notices").getByText("A long table is being audited.");
    await said.waitFor();
    expect(await unlike(audited(table))).toEqual([]);
    await said.waitFor({ state: "detached" });
    expect(threads).toEqual(["/audit-worker.js"]);
  });

  it("follows a reading that is typed afterwards without them", async () => {
    const typed = table.map((row, r) => (r === 31 ? row.with(1, 11.2) : row));
    await page.evaluate(async () => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      const at = { sheet: "Long", row: 31, column: 1, rows: 1, columns: 1 };
      await workbook.apply([{ do: "write", at, values: [[11.2]] }]);
    });
    expect(await unlike(audited(typed))).toEqual([]);
    expect(threads).toHaveLength(1);
  });
});
