import { readFile } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import { stepsOfFile } from "../../src/hosts/file/file-steps";
import { cellName } from "../../src/workbook/address";
import type { CellFormat, Workbook } from "../../src/workbook/port";
import { goTo, readCells, untilEdited, waitUntilOpen } from "./grid";
import { launchBrowser, serveLocalPage, watchedPage, type Served, type Watched } from "./launch";

jest.setTimeout(240_000);

let browser: Browser;
let served: Served;
let watched: Watched;
let page: Page;
beforeAll(async () => {
  served = await serveLocalPage();
  browser = await launchBrowser();
  // Days come first here.
  watched = await watchedPage(browser, served.address, { locale: "en-GB" });
  page = watched.page;
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await waitUntilOpen(page);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function paste(cell: string, text: string, keys = "Control+V"): Promise<void> {
  await goTo(page, cell);
  await page.evaluate((copied) => navigator.clipboard.writeText(copied), text);
  await untilEdited(page, cell, () => page.keyboard.press(keys));
}

const valuesOf = async (range: string) => (await readCells(page, "Job", range)).values.map((row) => row[0]);

/** The looks of the Job sheet's cells in a file that the page saves. */
async function savedLooks(): Promise<Map<string, CellFormat>> {
  const download = page.waitForEvent("download");
  await page.locator("#file").getByRole("button", { name: "Save as .xlsx" }).click();
  const { steps } = await stepsOfFile(await readFile(await (await download).path()), "saved.xlsx");
  const looks = new Map<string, CellFormat>();
  for (const step of steps) {
    if (step.do !== "format" || step.at.sheet !== "Job") continue;
    for (let r = 0; r < step.at.rows; r++)
      for (let c = 0; c < step.at.columns; c++) looks.set(cellName(step.at.row + r, step.at.column + c), step.format);
  }
  return looks;
}

/** The test speed and what was read there, in the demo job. */
const RUN = { first: "B66", range: "B66:B69" };

describe("text that is pasted", () => {
  it("goes into the cells as if it were typed there, units, decimal commas and all, and leaves their looks", async () => {
    const before = await savedLooks();
    await paste(RUN.first, "4.500 rpm\n14,32 V\n-0,4\n0,08 V\n");
    expect(await valuesOf(RUN.range)).toEqual(["4.500 rpm", "14,32 V", "-0,4", "0,08 V"]);
    expect((await readCells(page, "Job", "E67")).values).toEqual([["pass"]]);
    const after = await savedLooks();
    expect(before.get("B67")).toMatchObject({ align: "right" });
    for (const cell of ["B66", "B67", "B68", "B69"]) expect([cell, after.get(cell)]).toEqual([cell, before.get(cell)]);
  });

  it("is taken back and done again in one step", async () => {
    await goTo(page, RUN.first);
    await page.keyboard.press("Control+Z");
    for (const value of await valuesOf(RUN.range)) expect(value).not.toBe("14,32 V");
    await page.keyboard.press("Control+Y");
    expect(await valuesOf(RUN.range)).toEqual(["4.500 rpm", "14,32 V", "-0,4", "0,08 V"]);
  });

  it("leaves blank what is blank in it, at its beginning too: no reading comes into another's row", async () => {
    await paste(RUN.first, "\n14.3\n\n80 mV");
    expect(await valuesOf(RUN.range)).toEqual(["", 14.3, "", "80 mV"]);
  });

  it("fills the merged cells of the intake, with the day first in a date", async () => {
    await paste("B5", "J-300\r\n3/12/2026\r\nKing & Sons <shop>\r\n");
    // Days of a worksheet count from 1899-12-30.
    expect(await valuesOf("B5:B7")).toEqual([
      "J-300",
      Date.UTC(2026, 11, 3) / 86_400_000 + 25_569,
      "King & Sons <shop>",
    ]);
  });

  it("has its dates read the same way where another program puts looks on it", async () => {
    await goTo(page, "B66");
    await page.evaluate(async () => {
      const cells = "<table><tr><td>3/12/2026</td></tr><tr><td style='color:red'>12.3</td></tr></table>";
      await navigator.clipboard.write([new ClipboardItem({ "text/html": new Blob([cells], { type: "text/html" }) })]);
    });
    await untilEdited(page, "B66", () => page.keyboard.press("Control+V"));
    expect(await valuesOf("B66:B67")).toEqual([Date.UTC(2026, 11, 3) / 86_400_000 + 25_569, 12.3]);
  });

  it("is refused where a part of it would lie unseen under a merged cell", async () => {
    await goTo(page, "B5");
    await page.evaluate(() => navigator.clipboard.writeText("J-301\tunseen"));
    await page.keyboard.press("Control+V");
    await page.getByText("The paste area overlaps with merged cells").waitFor();
    expect((await readCells(page, "Job", "B5:C5")).values).toEqual([["J-300", ""]]);
  });

  it("is pasted the same way from the menu", async () => {
    await page.evaluate(async () => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      await workbook.apply([{ do: "add sheet", sheet: "Notes" }]);
      await workbook.activateSheet("Notes");
      await navigator.clipboard.writeText("\n14,1 V\t0,2");
    });
    const { x, y, width, height } = (await page.locator("#sheet").boundingBox())!;
    await page.mouse.click(x + width / 2, y + height / 2, { button: "right" });
    await page.getByText("Paste", { exact: true }).first().click();
    await page.waitForFunction(async () => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      const { values } = await workbook.read({ ...(await workbook.selection()), rows: 2, columns: 2 });
      return (
        JSON.stringify(values) ===
        JSON.stringify([
          ["", ""],
          ["14,1 V", "0,2"],
        ])
      );
    });
  });

  it("has said nothing on the console", () => {
    expect(watched.errors).toEqual([]);
  });
});
