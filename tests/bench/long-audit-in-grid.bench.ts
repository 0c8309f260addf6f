import { cpus } from "node:os";
import { parseArgs } from "node:util";
import type { Cell } from "../../src/core/cell";
import type { Workbook } from "../../src/workbook/port";
import { waitUntilOpen } from "../browser/grid";
import { launchBrowser, serveLocalPage, watchedPage } from "../browser/launch";
import { fleetRows } from "./fleet-rows";

/**
 * How long the first audit of a long table takes in the local page, from its formula to its values in the cells,
 * and how long the page does not answer meanwhile: in threads as it is, and with the threads taken away. Build first:
 * npm run build:local. Prints, and judges nothing.
 *
 *   node -r ./.config/typescript.cjs tests/bench/long-audit-in-grid.bench.ts --rows 20000
 */
const { values: options } = parseArgs({ options: { rows: { type: "string", default: "20000" } } });
const rows = Number(options.rows);

interface Taken {
  /** From the formula to the values [s]. */
  readonly whole: number;
  /** The longest time without an answer [s]. */
  readonly stuck: number;
}

/** Runs in the page. */
async function auditInPage({ table, kept }: { table: Cell[][]; kept: boolean }): Promise<Taken> {
  if (!kept) Reflect.deleteProperty(window, "Worker");
  const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
  const at = { sheet: "Long", row: 0, column: 0, rows: table.length, columns: table[0]!.length };
  await workbook.apply([{ do: "add sheet", sheet: "Long" }]);
  await workbook.apply([{ do: "write", at, values: table as string[][] }]);
  await workbook.read({ ...at, rows: 1 });
  let stuck = 0;
  let last = performance.now();
  const heartbeat = setInterval(() => {
    stuck = Math.max(stuck, performance.now() - last);
    last = performance.now();
  }, 10);
  const start = performance.now();
  const result = { ...at, column: at.columns + 1, rows: 1, columns: 1 };
  const formula = `=CHG.AUDIT(A1:I${table.length})`;
  await workbook.apply([{ do: "write", at: result, values: [[{ formula }]] }]);
  const { values } = await workbook.read({ ...result, rows: table.length });
  const whole = performance.now() - start;
  stuck = Math.max(stuck, performance.now() - last);
  clearInterval(heartbeat);
  if (values.some(([cell]) => cell === "")) throw new Error("a row has no result");
  return { whole: whole / 1000, stuck: stuck / 1000 };
}

void (async () => {
  const served = await serveLocalPage();
  const browser = await launchBrowser();
  console.log(`${rows} rows, ${cpus().length} processors (${cpus()[0]?.model ?? "unknown"})`);
  for (const kept of [false, true]) {
    const { page } = await watchedPage(browser, served.address);
    await waitUntilOpen(page);
    const { whole, stuck } = await page.evaluate(auditInPage, { table: fleetRows(rows, 12), kept });
    console.log(
      `${kept ? "in threads" : "in the page itself"} ${whole.toFixed(2)} s, without an answer ${stuck.toFixed(2)} s of them`,
    );
    await page.close();
  }
  await browser.close();
  await served.close();
})();
