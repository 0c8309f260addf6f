import type { Page } from "playwright-core";
import type { Cell } from "../../src/core/cell";
import { PanePages } from "../pane/open-pane";

jest.setTimeout(240_000);

const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

const focused = (page: Page) =>
  page.evaluate(
    () => document.activeElement?.textContent?.trim() || document.activeElement?.getAttribute("data-entry") || "",
  );
/** The focus follows once the view is drawn. */
const focusOn = (page: Page, text: string) =>
  page.waitForFunction((wanted) => document.activeElement?.textContent?.trim() === wanted, text);
const focusedEntry = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("data-entry"));
const cell = (page: Page, sheet: string, label: string): Promise<Cell> =>
  page.evaluate(
    async ([name, wanted]) => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea(name!));
      return values.find((row) => row[0] === wanted)?.[1];
    },
    [sheet, label] as const,
  );
const state = (page: Page, reading: string) => page.getAttribute(`[data-reading="${reading}"] .cw-state`, "data-state");

/** Presses Tab until the wanted element has the focus; a person would do the same. */
async function tabTo(page: Page, wanted: string): Promise<void> {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press("Tab");
    if ((await focused(page)).includes(wanted)) return;
  }
  throw new Error(`"${wanted}" cannot be reached with the keyboard.`);
}

describe("a job with the keyboard alone", () => {
  it("an earlier visit is opened again, and the focus stays with the job that was chosen", async () => {
    const { page, errors } = await pages.open({ demo: true });
    const picked = (sheet: string) =>
      page.waitForFunction((wanted) => {
        const at = document.activeElement;
        return at instanceof HTMLSelectElement && at.value === wanted && document.querySelector(".cw-answer") !== null;
      }, sheet);
    await tabTo(page, "The earlier visit");
    await page.keyboard.press("Enter");
    await tabTo(page, "Open the job of 2026-08-03 again");
    await page.keyboard.press("Enter");
    await picked("Job 2");
    // The picker keeps the focus while another job comes up below it.
    await page.keyboard.press("ArrowUp");
    await picked("Job");
    await page.waitForSelector("text=Last visit 2026-08-03");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("from an empty workbook to a judged reading and the next check", async () => {
    const { page, errors } = await pages.open();
    await tabTo(page, "Start a job");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".cw-answer");
    expect(await page.textContent(".cw-headline")).toBe("Nothing read yet");

    await tabTo(page, "Battery at rest");
    await page.keyboard.press("Enter");
    await focusOn(page, "Battery at rest");
    // Cautions stand before the steps, the steps before the fields.
    const order = await page.evaluate(() =>
      [".cw-cautions", ".cw-steps", ".cw-figure", ".cw-readings"].map(
        (name) => document.querySelector(name)!.getBoundingClientRect().top,
      ),
    );
    expect([...order].sort((a, b) => a - b)).toEqual(order);

    for (let i = 0; i < 10 && (await focusedEntry(page)) === null; i++) await page.keyboard.press("Tab");
    expect(await focusedEntry(page)).toBe("battery-temperature");
    const writes = () => page.evaluate(() => window.pane.workbook.calls.applies);
    const before = await writes();
    await page.keyboard.type("70 °F");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.getAttribute("data-entry") === "hours-rested");
    await page.keyboard.type("12");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.getAttribute("data-entry") === "rested-voltage");
    await page.keyboard.type("12,1 V");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.textContent?.includes("Next check"));

    // One write a reading: leaving the field after Enter writes nothing again.
    expect(await writes()).toBe(before + 3);
    expect(await cell(page, "Job", "Battery temperature")).toBe("70 °F");
    expect(await cell(page, "Job", "Hours rested")).toBe(12);
    expect(await cell(page, "Job", "Rested voltage")).toBe("12,1 V");
    expect(await state(page, "rested-voltage")).not.toBe("not read");

    await page.keyboard.press("Enter");
    await page.waitForSelector('[data-check="cell-gravities"]');
    await focusOn(page, "Cell gravities");
    await tabTo(page, "All checks");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.id === "cw-open-cell-gravities");
    expect(await page.textContent("#cw-open-battery-at-rest")).toContain("all read");
    expect(await page.getAttribute(".cw-headline", "data-state")).not.toBeNull();
    expect(errors).toEqual([]);
    await page.close();
  });

  it("cells of the sheet that cannot be read are named with what to enter", async () => {
    const { page } = await pages.open({ demo: true });
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Job"));
      for (const [label, typed] of [
        ["Idle speed", 1.2],
        ["Cranking voltage", "banana"],
      ] as const) {
        const row = values.findIndex((line) => line[0] === label);
        book.edit({ sheet: "Job", row, column: 1, rows: 1, columns: 1 }, [[typed]]);
      }
    });
    await page.waitForSelector("text=2 cells cannot be read and are left out");
    expect(await page.locator(".cw-faults li").allInnerTexts()).toEqual([
      'Cranking voltage: "banana" cannot be read; enter a number in V.',
      "Idle speed: 1.2 rpm is not possible; enter 200 to 20000 rpm.",
    ]);
    await page.close();
  });

  it("text that cannot be read stays in the field with a sentence, and the sheet keeps its cell", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-running-test");
    const field = page.locator('[data-entry="test-voltage"]');
    const before = await cell(page, "Job", "Running voltage at test speed");
    await field.fill("14..2");
    await field.press("Enter");
    await page.waitForSelector('[data-reading="test-voltage"] [role="alert"]');
    expect(await focusedEntry(page)).toBe("test-voltage");
    expect(await page.textContent('[data-reading="test-voltage"] [role="alert"]')).toContain('"14..2" cannot be read');
    expect(await field.getAttribute("aria-invalid")).toBe("true");
    expect(await cell(page, "Job", "Running voltage at test speed")).toBe(before);
    // Closing the pane and coming back loses nothing.
    await page.evaluate(() => {
      window.pane.unmount();
      window.pane.mount();
    });
    await page.click("#cw-open-running-test");
    expect(await field.inputValue()).toBe("14..2");
    await field.press("Escape");
    const sheet = Number(before).toFixed(2);
    await page.waitForFunction(
      (wanted) => document.querySelector<HTMLInputElement>('[data-entry="test-voltage"]')!.value === wanted,
      sheet,
    );
    await page.close();
  });

  it("a failed write keeps the text, says why, and nothing is half done", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-running-test");
    const before = await cell(page, "Job", "Running voltage at test speed");
    await page.evaluate(() => {
      window.pane.workbook.failNext = 'The sheet "Job" is protected; unprotect it and type again.';
    });
    const field = page.locator('[data-entry="test-voltage"]');
    await field.fill("14.2");
    await field.press("Enter");
    await page.waitForSelector(".cw-failure");
    expect(await page.textContent(".cw-failure")).toContain("is protected; unprotect it");
    expect(await field.inputValue()).toBe("14.2");
    expect(await cell(page, "Job", "Running voltage at test speed")).toBe(before);
    await field.press("Enter");
    await page.waitForSelector(".cw-failure", { state: "detached" });
    await page.waitForFunction(() => window.pane.workbook.failNext === undefined);
    expect(await cell(page, "Job", "Running voltage at test speed")).toBe(14.2);
    await page.close();
  });

  it("an edit in the sheet shows in the pane: field, state and verdict", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-running-test");
    const verdict = await page.textContent(".cw-compact");
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Job"));
      const row = values.findIndex((line) => line[0] === "Running voltage at test speed");
      book.edit({ sheet: "Job", row, column: 1, rows: 1, columns: 1 }, [[14.3]]);
    });
    await page.waitForFunction(
      () => document.querySelector<HTMLInputElement>('[data-entry="test-voltage"]')!.value === "14.30",
    );
    expect(await state(page, "test-voltage")).toBe("pass");
    await page.waitForFunction((old) => document.querySelector(".cw-compact")!.textContent !== old, verdict);
    await page.close();
  });

  it("a reading is taken from the selected cell", async () => {
    const { page } = await pages.open({ demo: true });
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      book.addSheet("Log", [["volts"], [13.92]]);
      await book.select({ sheet: "Log", row: 1, column: 0, rows: 1, columns: 1 });
    });
    await page.click("#cw-open-running-idle");
    await page.click('[data-reading="idle-voltage"] .cw-take');
    await page.waitForFunction(
      () => document.querySelector<HTMLInputElement>('[data-entry="idle-voltage"]')!.value === "13.92",
    );
    expect(await cell(page, "Job", "Running voltage at idle")).toBe(13.92);
    await page.close();
  });

  it("while typing, state and drawing follow before anything is written", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-running-test");
    const before = await cell(page, "Job", "Running voltage at test speed");
    const field = page.locator('[data-entry="test-voltage"]');
    await field.fill("14.2");
    await page.waitForSelector('[data-reading="test-voltage"] [data-state="pass"]');
    expect(await cell(page, "Job", "Running voltage at test speed")).toBe(before);
    await page.locator('[data-entry="battery-current"]').focus();
    await page.waitForSelector('[data-drawn="battery-current"]');
    await page.close();
  });

  it("readings typed one right after the other all arrive, the last one stands", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-running-test");
    const seen = await page.evaluate(async () => {
      const field = document.querySelector<HTMLInputElement>('[data-entry="test-voltage"]')!;
      const verdicts: string[] = [];
      for (const text of ["14.2", "12.1", "14.3", "11.8", "14.4", "12.3"]) {
        field.focus();
        field.value = text;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        // Enter in the same breath, before anything could be drawn again.
        field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
        const book = window.pane.workbook;
        for (let i = 0; i < 200; i++) {
          await new Promise((resolve) => setTimeout(resolve, 0));
          const { values } = await book.read(await book.usedArea("Job"));
          if (values.find((row) => row[0] === "Running voltage at test speed")?.[1] === Number(text)) break;
        }
        verdicts.push(text);
      }
      return verdicts;
    });
    expect(seen.length).toBe(6);
    expect(await cell(page, "Job", "Running voltage at test speed")).toBe(12.3);
    // What the charts draw comes from the sheet as it was read last.
    await page.locator(".cw-chart", { hasText: "12.30 V" }).first().waitFor();
    await page.locator('[data-reading="test-voltage"] [data-state="fail"]').first().waitFor();
    expect(await page.locator(".cw-chart").first().textContent()).toContain("12.30 V");
    expect(await state(page, "test-voltage")).toBe("fail");
    await page.close();
  });

  it.each(["cw-open-running-test", "cw-open-facts", "cw-open-proof"])(
    "a field of %s taken as soon as it is drawn keeps the focus",
    async (door) => {
      const { page } = await pages.open({ demo: true });
      await page.waitForSelector(`#${door}`);
      const kept = await page.evaluate(async (id) => {
        document.getElementById(id)!.click();
        const first = () => document.querySelector<HTMLElement>("[data-entry]");
        while (first() === null) await new Promise((next) => setTimeout(next, 0));
        const field = first()!;
        field.focus();
        // Long enough for what is done once a view has been painted.
        await new Promise((next) => setTimeout(next, 300));
        return document.activeElement === field;
      }, door);
      expect(kept).toBe(true);
      await page.close();
    },
  );
});
