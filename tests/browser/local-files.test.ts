import { readFile, writeFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { writeXlsx } from "hucre/xlsx";
import type { Browser, Page } from "playwright-core";
import { readWorkbook } from "../../src/hosts/file/read-workbook";
import type { Workbook } from "../../src/workbook/port";
import { violationsInBothLights } from "./axe";
import { readCell, readCells, typeInto, waitUntilOpen } from "./grid";
import { launchBrowser, screenshot, serveLocalPage, watchedPage, type Served, type Watched } from "./launch";

jest.setTimeout(300_000);

let browser: Browser;
let served: Served;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "files-"));
  served = await serveLocalPage();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
  await rm(folder, { recursive: true, force: true });
});

async function rowOf(page: Page, label: string): Promise<number> {
  const { values } = await readCells(page, "Job", "A1:A220");
  const row = values.findIndex(([text]) => text === label);
  expect(row).toBeGreaterThanOrEqual(0);
  return row + 1;
}

/** Answers the next question of the page. */
function answer(page: Page, yes: boolean): Promise<string> {
  return new Promise((resolve) =>
    page.once("dialog", (dialog) => {
      resolve(dialog.message());
      void (yes ? dialog.accept() : dialog.dismiss());
    }),
  );
}

const notice = (page: Page) => page.locator("#notices .notice");
const press = (page: Page, name: string) => page.locator("#file").getByRole("button", { name, exact: true }).click();
const choose = (page: Page, file: string) => page.locator("#file input").setInputFiles(file);

describe("files in the local page", () => {
  /** Every kind of notice is looked at where it comes up. */
  const faultsOfNotices = () => violationsInBothLights(page, "#notices");
  let watched: Watched;
  let page: Page;
  let row: number;
  const saved = () => path.join(folder, "saved.xlsx");
  beforeAll(async () => {
    watched = await watchedPage(browser, served.address);
    page = watched.page;
    await waitUntilOpen(page);
    row = await rowOf(page, "Running voltage at test speed");
  });
  afterAll(async () => page?.context().close());

  it("saves the workbook with what was typed, formulas that light up and their last values", async () => {
    await typeInto(page, `B${row}`, "14,3 V");
    await typeInto(page, "P3", "=SUM(1,2)*7");
    expect(await readCell(page, "Job", `E${row}`)).toBe("pass");
    const download = page.waitForEvent("download");
    await press(page, "Save as .xlsx");
    expect((await download).suggestedFilename()).toBe("chargewright.xlsx");
    await (await download).saveAs(saved());
    await notice(page).getByText("Saved as chargewright.xlsx").waitFor();
    expect(await faultsOfNotices()).toEqual([]);
    const book = readWorkbook(await readFile(saved()), "saved.xlsx");
    const job = book.sheets.find(({ name }) => name === "Job")!;
    expect(job.at(row - 1, 1)?.value).toBe("14,3 V");
    expect(job.at(row - 1, 4)?.value).toBe("pass");
    expect(job.at(2, 15)).toMatchObject({ value: 21, formula: { text: "SUM(1,2)*7", kind: "plain" } });
    const ours = job.rows.flatMap(({ cells }) => cells).filter(({ formula }) => formula?.text.includes("_xldudf_CHG_"));
    expect(ours.length).toBeGreaterThan(5);
    expect(ours.every(({ dynamic }) => dynamic)).toBe(true);
    expect([...book.parts.keys()]).toContain("xl/webextensions/webextension1.xml");
  });

  it("asks before it starts anew, and does so only on a yes", async () => {
    // On a busy computer idle work comes late: the grid it was planned for is closed by then.
    await page.evaluate(() => {
      window.requestIdleCallback = (work) =>
        window.setTimeout(() => work({ didTimeout: true, timeRemaining: () => 40 }), 2000);
      window.cancelIdleCallback = (handle) => window.clearTimeout(handle);
    });
    const question = answer(page, false);
    await press(page, "Start anew");
    expect(await question).toContain("not saved as a file is lost");
    expect(await readCell(page, "Job", `B${row}`)).toBe("14,3 V");
    void answer(page, true);
    await press(page, "Start anew");
    await page.locator("#file button:not(:disabled)").first().waitFor();
    expect(await readCell(page, "Job", `B${row}`)).not.toBe("14,3 V");
    expect(await readCell(page, "Job", `E${row}`)).toBe("fail");
    expect(await page.locator("#sheet > .grid").count()).toBe(1);
  });

  it("opens the file again: values, formulas and judgement are back, and typing goes on", async () => {
    void answer(page, true);
    await choose(page, saved());
    await notice(page).getByText("saved.xlsx is open.").waitFor();
    expect(await faultsOfNotices()).toEqual([]);
    expect(await readCell(page, "Job", `B${row}`)).toBe("14,3 V");
    expect(await readCell(page, "Job", `E${row}`)).toBe("pass");
    expect((await readCells(page, "Job", "P3")).formulas).toEqual([["=SUM(1,2)*7"]]);
    await page.locator("#pane").getByText("J-118").first().waitFor();
    await typeInto(page, `B${row}`, "12.46");
    expect(await readCell(page, "Job", `E${row}`)).toBe("fail");
    await screenshot(page, "opened-file");
  });

  it("names what it cannot show, and leaves the workbook alone where a file is none", async () => {
    const run = path.join(folder, "run.xlsx");
    const series = [{ name: "volts", values: "Run!$A$1:$A$2" }];
    const charts = [{ type: "pie", series, anchor: { from: { row: 5, col: 0 }, to: { row: 15, col: 5 } } } as const];
    await writeFile(run, await writeXlsx({ sheets: [{ name: "Run", rows: [[13.1], [14.2]], charts }] }));
    void answer(page, true);
    await choose(page, run);
    await notice(page).getByText("run.xlsx is open, without").waitFor();
    expect(await notice(page).locator("li").allInnerTexts()).toEqual(["Run: 1 chart"]);
    expect(await faultsOfNotices()).toEqual([]);
    expect(await readCell(page, "Run", "A2")).toBe(14.2);

    const broken = path.join(folder, "broken.xlsx");
    await writeFile(broken, (await readFile(saved())).subarray(0, 5000));
    await choose(page, broken);
    await notice(page).getByText("broken.xlsx is damaged or cut short").waitFor();
    expect(await faultsOfNotices()).toEqual([]);
    expect(await readCell(page, "Run", "A2")).toBe(14.2);
  });

  it("says what could not be saved or kept, what changed elsewhere and what cannot be restored, for all to read", async () => {
    const making = await page.evaluateHandle(() => {
      const { createObjectURL } = URL;
      URL.createObjectURL = () => {
        throw new Error("no room for it");
      };
      return createObjectURL;
    });
    await press(page, "Save as .xlsx");
    await notice(page).getByText("Nothing was saved: no room for it").waitFor();
    await page.evaluate((make) => (URL.createObjectURL = make), making);

    const change = (value: number) =>
      page.evaluate(async (number) => {
        const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
        const at = { sheet: "Run", row: 0, column: 1, rows: 1, columns: 1 };
        await workbook.apply([{ do: "write", at, values: [[number]] }]);
      }, value);
    // A full disk refuses what is put into the store.
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = function () {
        IDBObjectStore.prototype.put = put;
        throw new DOMException("The disk is full.", "QuotaExceededError");
      };
    });
    await change(1);
    await notice(page).getByText("could not keep the workbook (The disk is full.)").waitFor();
    expect(await faultsOfNotices()).toEqual([]);

    /** Changes what the browser keeps behind the back of the page. */
    const changeKept = (change: { readonly revision?: number; readonly shape?: number }) =>
      page.evaluate(
        (changed) =>
          new Promise<void>((done) => {
            const opening = indexedDB.open("chargewright", 1);
            opening.onsuccess = () => {
              const writing = opening.result.transaction("workbooks", "readwrite");
              const store = writing.objectStore("workbooks");
              const reading = store.get("current");
              reading.onsuccess = () => store.put({ ...(reading.result as object), ...changed }, "current");
              writing.oncomplete = () => done();
            };
          }),
        change,
      );
    await changeKept({ revision: 1000 });
    await change(2);
    await notice(page).getByText("The kept workbook was changed elsewhere.").waitFor();
    expect(await faultsOfNotices()).toEqual([]);

    const refused = await page.context().newPage();
    await refused.addInitScript(() => {
      navigator.locks.request = () => Promise.reject(new Error("no locks here"));
    });
    await refused.goto(served.address);
    await refused.locator("#status").getByText("The workbook could not be opened: no locks here").waitFor();
    expect(await violationsInBothLights(refused, "#status")).toEqual([]);
    await refused.close();

    // Said before the demo workbook is built in its place: nobody waits for that here.
    await changeKept({ shape: 99 });
    await page.reload({ waitUntil: "commit" });
    await notice(page).getByText("The kept workbook could not be opened (shape 99).").waitFor();
    expect(await faultsOfNotices()).toEqual([]);
  });

  it("has said nothing on the console and asked nobody else for anything", () => {
    // The tab that was refused its turn has said so here too.
    expect({ errors: watched.errors, foreign: watched.foreign }).toEqual({
      errors: [expect.stringContaining("no locks here")],
      foreign: [],
    });
  });
});

describe("the workbook in the browser", () => {
  /** Once the page has written all that was typed. */
  const written = async (page: Page) => {
    await page.waitForTimeout(300);
    await page.waitForSelector('html[data-kept="all"]');
  };

  /** Where nothing may be written: long enough for a page to do it all the same. */
  const writeTime = (page: Page) => page.waitForTimeout(1500);

  it("is there again after a reload, judged; only one tab keeps it, and hands it over when asked", async () => {
    const { page, errors } = await watchedPage(browser, served.address);
    await waitUntilOpen(page);
    const row = await rowOf(page, "Running voltage at test speed");
    await typeInto(page, `B${row}`, "14,3 V");
    await written(page);
    await page.reload();
    await waitUntilOpen(page);
    expect(await readCell(page, "Job", `B${row}`)).toBe("14,3 V");
    expect(await readCell(page, "Job", `E${row}`)).toBe("pass");
    expect(await notice(page).count()).toBe(0);

    const second = await page.context().newPage();
    await second.goto(served.address);
    await waitUntilOpen(second);
    await notice(second).getByText("open in another tab").waitFor();
    expect(await violationsInBothLights(second, "#notices")).toEqual([]);
    await typeInto(second, `B${row}`, "11.9");
    await writeTime(second);
    await typeInto(page, `B${row}`, "14.25");
    await written(page);

    const again = second.waitForEvent("load");
    await notice(second).getByRole("button", { name: "Keep it here instead" }).click();
    await notice(page).getByText("now kept by another tab").waitFor();
    expect(await violationsInBothLights(page, "#notices")).toEqual([]);
    await again;
    await waitUntilOpen(second);
    expect(await readCell(second, "Job", `B${row}`)).toBe(14.25);
    expect(await notice(second).count()).toBe(0);

    await typeInto(page, `B${row}`, "13.0");
    await writeTime(page);
    await second.reload();
    await waitUntilOpen(second);
    expect(await readCell(second, "Job", `B${row}`)).toBe(14.25);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});
