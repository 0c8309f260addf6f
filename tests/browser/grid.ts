import type { Page } from "playwright-core";
import { parseRange } from "../../src/workbook/address";
import type { Cell } from "../../src/core/cell";
import type { ReadArea, Workbook } from "../../src/workbook/port";

/** The page's own workbook, which it leaves on its window for those who cannot see a canvas. */
type PageWindow = { readonly chargewright: { readonly workbook: Workbook } };

/** Waits until the demo workbook stands in the grid and the pane beside it. */
export async function waitUntilOpen(page: Page): Promise<void> {
  await page.waitForSelector("html[data-ready]", { timeout: 120_000 });
}

/** Reads cells as the workbook has them, once every formula is calculated: `B65:F65`. */
export async function readCells(page: Page, sheet: string, range: string): Promise<ReadArea> {
  const at = { sheet, ...parseRange(range)! };
  return page.evaluate((area) => {
    const reading = (window as unknown as PageWindow).chargewright.workbook.read(area);
    // A browser may clear away a promise that nobody but the test waits for.
    Object.assign(window, { reading });
    return reading;
  }, at);
}

export async function readCell(page: Page, sheet: string, cell: string): Promise<Cell> {
  return (await readCells(page, sheet, cell)).values[0]![0];
}

/** Goes to a cell the way a person does who knows its name: through the name box. */
export async function goTo(page: Page, cell: string): Promise<void> {
  const box = page.locator('#sheet [data-u-comp="defined-name"] input');
  await box.click();
  await box.fill(cell);
  await box.press("Enter");
  await page.waitForFunction(async ({ row, column }) => {
    const at = await (window as unknown as PageWindow).chargewright.workbook.selection();
    return at.row === row && at.column === column;
  }, parseRange(cell)!);
}

/** Types into a cell, leaves it with Enter and waits until the grid has taken it. */
export async function typeInto(page: Page, cell: string, text: string): Promise<void> {
  await goTo(page, cell);
  await untilEdited(page, cell, async () => {
    await page.keyboard.type(text);
    await page.keyboard.press("Enter");
  });
}

/** Does something that edits a cell, and waits until the grid has taken it. */
export async function untilEdited(page: Page, cell: string, act: () => Promise<void>): Promise<void> {
  await page.evaluate(({ row, column }) => {
    const taken = new Promise<void>((resolve) => {
      const stop = (window as unknown as PageWindow).chargewright.workbook.onEdit((edit) => {
        if (edit.row !== row || edit.column !== column) return;
        stop();
        resolve();
      });
    });
    Object.assign(window, { taken });
  }, parseRange(cell)!);
  await act();
  await page.evaluate(() => (window as unknown as { taken: Promise<void> }).taken);
}
