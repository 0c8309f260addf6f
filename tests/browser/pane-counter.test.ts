import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import type { Cell } from "../../src/core/cell";
import { PanePages, type OpenPane } from "../pane/open-pane";
import { screenshot } from "./launch";

jest.setTimeout(240_000);

const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

async function openCounter(options: Parameters<PanePages["open"]>[0] = {}): Promise<OpenPane> {
  const opened = await pages.open({ demo: true, ...options });
  await opened.page.click('[data-section="counter"]');
  await opened.page.waitForSelector(".cw-counter-quote .cw-counter-lines");
  return opened;
}

/** Types beside a label of the job's sheet, as the technician would. */
const read = (page: Page, readings: Readonly<Record<string, Cell>>) =>
  page.evaluate(async (typed) => {
    const book = window.pane.workbook;
    const { values } = await book.read(await book.usedArea("Job"));
    for (const [label, value] of Object.entries(typed)) {
      const row = values.findIndex((line) => line[0] === label);
      book.edit({ sheet: "Job", row, column: 1, rows: 1, columns: 1 }, [[value as string | number]]);
    }
  }, readings);
const GROUND_RUN = {
  "Voltage drop, B+ run": 0.12,
  "Voltage drop, ground run": 1.05,
  "Current during the drop test": 9.5,
};
const proven = '.cw-counter-verdict[data-state="faulty"][data-part="wiring"]';

/** Rows of the record below its header, by header. */
const record = (page: Page): Promise<readonly Readonly<Record<string, Cell>>[]> =>
  page.evaluate(async () => {
    const book = window.pane.workbook;
    const { values } = await book.read(await book.usedArea("Quotes"));
    const head = values.findIndex((row) => row[0] === "Quote number");
    return values
      .slice(head + 1)
      .filter((row) => row.some((cell) => cell !== ""))
      .map((row) => Object.fromEntries(values[head]!.map((label, c) => [String(label), row[c]])));
  });
const factsOf = (page: Page, sheet: string): Promise<Readonly<Record<string, Cell>>> =>
  page.evaluate(async (name) => {
    const book = window.pane.workbook;
    const { values } = await book.read({ sheet: name, row: 0, column: 0, rows: 20, columns: 2 });
    return Object.fromEntries(values.map(([label, value]) => [String(label), value]));
  }, sheet);
const textOf = (page: Page, selector: string) => page.locator(selector).innerText();
const focused = (page: Page) => page.evaluate(() => (document.activeElement as HTMLElement).innerText ?? "");

async function tabTo(page: Page, test: () => Promise<boolean>): Promise<void> {
  for (let i = 0; i < 60; i++) {
    if (await test()) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("It cannot be reached with the keyboard.");
}
const focusIs = (page: Page, selector: string) => async () =>
  page.evaluate((wanted) => document.activeElement?.matches(wanted) === true, selector);

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const axe = (
      window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }
    ).axe;
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  });
}

describe("the counter", () => {
  it("goes from the search to an accepted quote with the keyboard alone", async () => {
    const { page, errors } = await openCounter();
    await read(page, GROUND_RUN);
    await page.waitForSelector(proven);

    // What the technician types under intake stands at the counter at once.
    await read(page, { Customer: "Lower" });
    await page.waitForSelector("text=2026-11-18 · Lower ·");
    expect(await page.inputValue(".cw-counter-order input")).toBe("Lower");

    await tabTo(page, focusIs(page, 'input[type="search"]'));
    await page.keyboard.type("weekend quad");
    await page.waitForSelector("text=1 job");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.matches(".cw-counter-job"));
    expect(await focused(page)).toBe("J-118 · Quad 7");
    const verdict = await textOf(page, proven);
    expect(verdict).toContain("Wiring: faulty");
    expect(verdict).toContain("chance over 99 %");
    expect(verdict).toContain("The ground run drops too much.");
    expect(verdict).toContain("1.050 V");

    // The ways side by side, each with its price; the second is chosen by an arrow key.
    expect(await page.locator(".cw-counter-way-name").allInnerTexts()).toEqual([
      "Renew the joint",
      "Replace the cable run",
    ]);
    await tabTo(page, focusIs(page, ".cw-counter-way input"));
    await page.keyboard.press("ArrowDown");
    await page.waitForSelector('[data-way="Replace the cable run"]:has(:checked)');
    await tabTo(page, focusIs(page, ".cw-counter-order input"));
    await page.keyboard.press("End");
    await page.keyboard.type(" yard");
    await page.keyboard.press("Tab");
    await page.keyboard.type("thirty");
    await page.waitForSelector('.cw-counter-field [role="alert"]');
    expect(await page.isDisabled(".cw-counter-order .cw-primary")).toBe(true);
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("30");
    // By hand: cable 14.20, terminals 2 × 1.15, 1.2 h at 92, 30 min at 80, supplies 5 % of the labour: 172.42;
    // 7 % rounded on each line: 0.99 + 0.16 + 7.73 + 2.80 + 0.39 = 12.07.
    const total = (await textOf(page, ".cw-counter-total td")).trim();
    expect(total).toBe("$184.49");
    await screenshot(page, "counter");
    await tabTo(page, focusIs(page, ".cw-counter-order .cw-primary"));
    await page.keyboard.press("Enter");
    await page.waitForSelector("text=Quote Q-2 stands on the sheet");

    const facts = await factsOf(page, "Quote 2");
    expect(facts).toMatchObject({
      "Quote number": "Q-2",
      Customer: "Lower yard",
      "Way to quote": "Replace the cable run",
      "Diagnosis minutes": 30,
      "Quoted verdict": "wiring: faulty",
      "Quoted total": 184.49,
    });
    const today = await page.evaluate(() => new Date().toLocaleDateString("sv"));
    await tabTo(page, focusIs(page, '[data-quote="Q-2"] button'));
    await page.keyboard.press("Enter");
    await page.waitForSelector('[data-quote="Q-2"][data-decision="accepted"]');
    const rows = await record(page);
    expect(rows).toHaveLength(2);
    expect(rows[1]).toMatchObject({
      "Quote number": "Q-2",
      "Quoted on": today,
      "Job sheet": "Job",
      "Job number": "J-118",
      Machine: "Quad 7",
      Part: "wiring",
      State: "faulty",
      "Quoted as": "Replace the cable run",
      Total: 184.49,
      Currency: "USD",
      Decision: "accepted",
      "Decided on": today,
    });
    expect((await factsOf(page, "Quote 2"))["Decision"]).toBe("accepted");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("sells no part that is only suspect, and marks a quote outdated once the verdict is another", async () => {
    const { page } = await openCounter();
    expect(await textOf(page, ".cw-counter-quote")).toContain("not proven, so no part is sold on it");
    expect(await page.locator(".cw-counter-way").count()).toBe(0);
    expect(await textOf(page, ".cw-counter-lines caption")).toMatch(/^Further check: /u);
    const price = (await textOf(page, ".cw-counter-total td")).trim();
    expect(price).toMatch(/^\$\d+\.\d\d$/u);
    await page.click(".cw-counter-order .cw-primary");
    await page.waitForSelector('[data-quote="Q-2"]');
    expect(await page.locator(".cw-counter-outdated").count()).toBe(0);
    await read(page, GROUND_RUN);
    await page.waitForSelector('[data-quote="Q-2"] .cw-counter-outdated');
    expect(await textOf(page, ".cw-counter-outdated")).toMatch(
      /Outdated: quoted when it was .*suspect; now it is Wiring: faulty\./u,
    );

    // Its last day is over: that is marked too.
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Quotes"));
      const row = values.findIndex((line) => line[0] === "Q-2");
      const column = values.find((line) => line[0] === "Quote number")!.indexOf("Valid until");
      book.edit({ sheet: "Quotes", row, column, rows: 1, columns: 1 }, [["2020-01-31"]]);
    });
    await page.waitForSelector('[data-quote="Q-2"] [data-expired="2020-01-31"]');

    // Open still, it is written anew under its number, and stands again.
    await page.click("text=Write quote Q-2 anew");
    await page.waitForFunction(() => document.querySelector(".cw-counter-outdated") === null);
    expect((await record(page)).map((row) => [row["Quote number"], row["Part"], row["State"]])).toEqual([
      ["Q-1", "regulator-rectifier", "faulty"],
      ["Q-2", "wiring", "faulty"],
    ]);
    await page.click('[data-quote="Q-2"] button >> text=Declined');
    await page.waitForSelector('[data-quote="Q-2"][data-decision="declined"]');
    await page.waitForSelector("text=Write the quote");
    await page.close();
  });

  it("answers for a part that comes back: proven, not known, from a closed visit, from a quote alone", async () => {
    const { page } = await openCounter();
    const answer = () => page.getAttribute("[data-answer]", "data-answer");
    const choose = async (typed: string, key: string) => {
      await page.fill('input[type="search"]', typed);
      await page.click(`[data-job="${key}"]`);
      await page.waitForFunction(() => document.activeElement?.matches(".cw-counter-job"));
      await page.waitForSelector("[data-answer]");
    };
    await read(page, GROUND_RUN);
    await page.waitForSelector('[data-answer="proven"]');
    expect(await textOf(page, "[data-answer]")).toMatch(
      /Yes: proven bad by a check of the part itself\.[\s\S]*1\.050 V/u,
    );
    await page.selectOption(".cw-counter-return select", "stator");
    expect(await answer()).toBe("unknown");
    expect(await textOf(page, "[data-answer]")).toContain("Not done, or not in order: winding resistance");

    await page.fill('input[type="search"]', "closed nowhere");
    await page.waitForSelector("text=No job in this workbook fits that.");
    const visit = await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Fleet"));
      return values.findIndex((row) => row[0] === "Quad 7" && row[1] === "2026-08-03");
    });
    await choose("quad 2026-08-03", `visit ${visit}`);
    expect(await textOf(page, ".cw-counter article")).toContain("From the row of this visit in the list");
    expect(await answer()).toBe("unknown");

    await choose("J-112", "quoted j112");
    expect(await answer()).toBe("recorded");
    expect(await textOf(page, "[data-answer]")).toContain(
      "Quoted Q-1, 2026-11-10: Regulator-rectifier: faulty, accepted on 2026-11-11.",
    );
    await page.selectOption(".cw-counter-return select", "battery");
    expect(await answer()).toBe("unknown");
    await page.close();
  });

  it("quotes no longer from a price list that was removed, and finds one that was renamed", async () => {
    const { page, errors } = await openCounter();
    await page.evaluate(() => window.pane.workbook.renameSheet("Prices", "Price list"));
    await page.click(".cw-counter h2");
    await read(page, GROUND_RUN);
    await page.waitForSelector(".cw-counter-ways");
    await page.evaluate(() => window.pane.workbook.removeSheet("Price list"));
    await page.click(".cw-counter h2");
    await page.waitForSelector("text=Lay out what is missing");
    expect(await page.locator(".cw-counter-lines").count()).toBe(0);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("lays out prices and terms where the workbook has none, and then names what has no price", async () => {
    const { page, errors } = await pages.open();
    await page.click("text=Start a job");
    await page.waitForSelector(".cw-answer");
    await read(page, { "Key-off draw": 60, "Rested voltage": 11.9 });
    await page.click('[data-section="counter"]');
    await page.click("text=Lay out what is missing");
    await page.waitForSelector(".cw-counter-lines");
    expect(await page.evaluate(() => window.pane.workbook.sheetNames())).toEqual(
      expect.arrayContaining(["Prices", "Terms"]),
    );
    expect(await textOf(page, ".cw-counter-quote")).toContain("labour rate: not set in the terms");
    expect(await textOf(page, ".cw-counter-total")).toContain("Total without what has no price");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("says what failed and leaves no half of a quote", async () => {
    const { page } = await openCounter();
    const before = await page.evaluate(() => window.pane.workbook.sheetNames());
    await page.evaluate(() => {
      window.pane.workbook.failNext = "The workbook is protected.";
    });
    await page.click(".cw-counter-order .cw-primary");
    await page.waitForSelector(".cw-failure");
    expect(await page.textContent(".cw-failure")).toContain("The workbook is protected.");
    expect(await page.evaluate(() => window.pane.workbook.sheetNames())).toEqual(before);
    expect(await record(page)).toHaveLength(1);
    await page.close();
  });

  for (const [dark, language] of [
    [false, "en"],
    [true, "en"],
    [false, "es"],
    [true, "es"],
  ] as const) {
    it(`[axe-core; WCAG 2.1 1.4.10] is clean in ${dark ? "dark" : "light"}, ${language}, and as narrow as 320 px`, async () => {
      const { page } = await openCounter({ dark, language, width: 320 });
      await page.click(".cw-counter-order .cw-primary");
      await page.waitForSelector('[data-quote="Q-2"]');
      await read(page, GROUND_RUN);
      await page.waitForSelector(".cw-counter-outdated");
      await page.waitForSelector(".cw-counter-way");
      await page.fill('input[type="search"]', "quad");
      await page.waitForSelector("[data-job]");
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
      if (language === "es") expect(await textOf(page, ".cw-counter-total td")).toMatch(/^\d+,\d\d\s\S+$/u);
      await page.close();
    });
  }
});
