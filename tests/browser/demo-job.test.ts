import { readFileSync } from "node:fs";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { goTo, readCell, readCells, typeInto, waitUntilOpen } from "./grid";
import { launchBrowser, screenshot, serveLocalPage, watchedPage, type Served } from "./launch";

jest.setTimeout(240_000);

/** The README's job to try: its table of readings and what it says of them are what is checked. */
const README = readFileSync(path.resolve(__dirname, "../../README.md"), "utf8");
const readings = /\| reading +\| type +\|\n.*\n((?:\|.*\|\n)+)/u
  .exec(README)![1]!
  .trim()
  .split("\n")
  .map((line) => line.split("|").map((cell) => cell.trim()) as [string, string, string])
  .map(([, label, typed]) => ({ label, typed }));

let browser: Browser;
let served: Served;
let page: Page;
beforeAll(async () => {
  served = await serveLocalPage();
  browser = await launchBrowser();
  page = (await watchedPage(browser, served.address)).page;
  await waitUntilOpen(page);
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const pane = () => page.locator("#pane");
const headline = () => readCell(page, "Job", "E5");

async function rowOf(label: string): Promise<number> {
  const { values } = await readCells(page, "Job", "A1:A220");
  const row = values.findIndex(([text]) => text === label);
  expect(row).toBeGreaterThanOrEqual(0);
  return row + 1;
}

describe("the job to try", () => {
  it("opens unproven, with the drop test as the next check", async () => {
    expect(readings).toHaveLength(3);
    expect(await headline()).toMatch(/^Wiring: suspect/u);
    expect(await readCell(page, "Job", "E10")).toMatch(/^Voltage drop, B\+ and ground \(/u);
    await pane().getByText("Wiring: suspect").waitFor();
  });

  it("is settled by what was read along the runs: cells, pane and what is kept as typed", async () => {
    for (const { label, typed } of readings) {
      const row = await rowOf(label);
      await typeInto(page, `B${row}`, typed);
      expect(String(await readCell(page, "Job", `B${row}`))).toBe(typed);
    }
    const state = async (label: string) => readCell(page, "Job", `E${await rowOf(label)}`);
    expect(await state("Voltage drop, B+ run")).toBe("pass");
    expect(await state("Voltage drop, ground run")).toBe("fail");
    expect(await headline()).toMatch(/^Wiring: faulty/u);
    expect(await readCell(page, "Job", "E7")).toContain("ground run");
    await pane().getByText("Wiring: faulty").waitFor();
    await goTo(page, "A1");
    await screenshot(page, "settled-job");
  });

  it("is as it was when they are cleared", async () => {
    for (const { label } of readings) {
      await goTo(page, `B${await rowOf(label)}`);
      await page.keyboard.press("Delete");
    }
    await pane().getByText("Wiring: suspect").waitFor();
    expect(await headline()).toMatch(/^Wiring: suspect/u);
  });
});
