import type { Page } from "playwright-core";
import { PanePages } from "../pane/open-pane";
import { screenshot } from "./launch";

jest.setTimeout(240_000);

const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

/** A rental fleet's list as a person keeps it, invented; the header row is selected. */
async function openList(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const book = window.pane.workbook;
    book.addSheet("Rental", [
      ["Rental quads, autumn"],
      ["Unit no", "Customer", "Rested voltge", "Draw", "Voltage"],
      ["Q-01", "A", 12.8, 0.001, 14.3],
      ["Q-02", "B", "12,3 V", 0.35, 14.2],
      ["Q-03", "C", "n.a.?", 0.002, 12.1],
      ["Total", 3, "", "", ""],
    ]);
    await book.activateSheet("Rental");
    await book.select({ sheet: "Rental", row: 1, column: 0, rows: 1, columns: 5 });
  });
  await page.click("[data-section=tables]");
  await page.click(".cw-adopt > button");
  await page.waitForSelector(".cw-adopt-columns");
}
const formulasOf = (page: Page) =>
  page.evaluate(async () => {
    const book = window.pane.workbook;
    const { formulas } = await book.read({ sheet: "Rental", row: 0, column: 0, rows: 6, columns: 20 });
    return formulas.flatMap((line, row) =>
      line.flatMap((formula, column) => (formula ? [{ row, column, formula }] : [])),
    );
  });

describe("a table of the user's own in the pane", () => {
  it("is looked at, corrected, given results, renewed and freed of them", async () => {
    const { page, errors } = await pages.open();
    await openList(page);
    expect(await page.textContent(".cw-adopt h3")).toBe("Rental!A2:E5 · 3 machine rows");
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H3");
    const row = (letter: string) => page.locator(".cw-adopt-column", { has: page.locator(`b:text-is("${letter}")`) });
    expect(await row("C").textContent()).toContain("spelt differently");
    expect(await row("C").textContent()).toContain('first C5. Rested voltage: "n.a.?" cannot be read');
    expect(await row("C").textContent()).toContain("12.8 · 12,3 V · n.a.?");

    // What the headers do not tell is told by hand: the draw is in amperes.
    await page.click(".cw-adopt details summary");
    await row("D").locator("select").selectOption("key-off-draw");
    const unit = row("D").locator("input");
    expect(await unit.inputValue()).toBe("mA");
    await unit.fill("V");
    expect(await row("D").locator('[role="alert"]').textContent()).toContain('"V" is no unit of this reading');
    await unit.fill("A");
    expect(await row("D").locator('[role="alert"]').count()).toBe(0);
    await row("E").locator("select").selectOption("test-voltage");

    // A place that is taken is named, and nothing can be written there.
    const place = page.locator(".cw-adopt-results input");
    await place.fill("D");
    expect(await page.textContent('.cw-adopt-results [role="alert"]')).toContain("the table's own column D");
    expect(await page.locator(".cw-adopt-results .cw-primary").isDisabled()).toBe(true);
    await place.fill("");
    expect(await page.textContent(".cw-adopt-results")).toContain("Results will stand at Rental!G2:M5.");
    await screenshot(page, "adopt-table");
    await page.click(".cw-adopt-results .cw-primary");
    await page.waitForSelector("text=The results stand at Rental!G2:M5.");
    const formulas = await formulasOf(page);
    expect(formulas).toHaveLength(1);
    expect(formulas[0]).toMatchObject({ row: 2, column: 6 });
    expect(formulas[0]!.formula).toContain(
      '{"Machine","Customer","Rested voltage [V]","Key-off draw [A]","Running voltage at test speed [V]"}',
    );

    // Coming back later, the pane knows what was said.
    await page.click("[data-section=job]");
    await page.click("[data-section=tables]");
    await page.click(".cw-adopt > button");
    await page.waitForSelector(".cw-adopt-columns");
    expect(await row("D").locator("select").inputValue()).toBe("key-off-draw");
    expect(await row("D").locator("input").inputValue()).toBe("A");
    expect(await row("D").textContent()).toContain("As you set it before");
    await page.click("text=Renew the results");
    await page.waitForSelector("text=The results stand at Rental!G2:M5.");
    expect(await formulasOf(page)).toEqual(formulas);
    // Routine visits are said in the formula too, and taken back again.
    const routine = page.getByRole("checkbox", { name: "Routine visits: 90 % of the machines are in order" });
    expect(await routine.isChecked()).toBe(false);
    for (const [click, setting] of [
      ["check", true],
      ["uncheck", false],
    ] as const) {
      await routine[click]();
      await page.click("text=Renew the results");
      await page.waitForSelector("text=The results stand at Rental!G2:M5.");
      await page.click(".cw-adopt > button");
      await page.waitForSelector(".cw-adopt-columns");
      expect(await routine.isChecked()).toBe(setting);
      expect(await row("D").locator("input").inputValue()).toBe("A");
      const [written] = await formulasOf(page);
      expect(written!.formula.includes('{"in order beforehand",0.9},{"Machine"')).toBe(setting);
    }
    await page.waitForSelector("text=Take the results away");
    await page.click("text=Take the results away");
    await page.waitForSelector("text=the table is as it was");
    expect(await formulasOf(page)).toEqual([]);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("gets its results in the language of the pane", async () => {
    const { page, errors } = await pages.open({ language: "es" });
    await openList(page);
    await page.click(".cw-adopt details summary");
    await page.getByLabel("La columna D contiene").selectOption("key-off-draw");
    await page.click(".cw-adopt-results .cw-primary");
    await page.waitForSelector("text=Los resultados están en Rental!G2:M5.");
    const [formula, ...more] = await formulasOf(page);
    expect(more).toEqual([]);
    expect(formula).toMatchObject({ row: 2, column: 6, formula: expect.stringMatching(/"Máquina",.*\},"es all"\)$/u) });
    const headers = await page.evaluate(async () => {
      const at = { sheet: "Rental", row: 1, column: 6, rows: 1, columns: 7 };
      return (await window.pane.workbook.read(at)).values[0];
    });
    expect([headers![1], headers![6]]).toEqual(["Estado", "Dictamen"]);
    await screenshot(page, "adopt-table-spanish");
    await page.click("text=Quitar los resultados");
    await page.waitForSelector("text=la tabla está como antes");
    expect(await formulasOf(page)).toEqual([]);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("says what to select where there is no table", async () => {
    const { page } = await pages.open({ language: "es" });
    await page.click("[data-section=tables]");
    await page.click(".cw-adopt > button");
    await page.waitForSelector('.cw-adopt [role="alert"]');
    expect(await page.textContent('.cw-adopt [role="alert"]')).toContain("seleccione la fila de encabezados");
    await page.close();
  });

  it("can be done with the keyboard alone", async () => {
    const { page } = await pages.open({ dark: true });
    await openList(page);
    const focusedText = () => page.evaluate(() => document.activeElement?.textContent ?? "");
    const tabTo = async (test: () => Promise<boolean>) => {
      for (let i = 0; i < 40; i++) {
        await page.keyboard.press("Tab");
        if (await test()) return;
      }
      throw new Error("It cannot be reached with the keyboard.");
    };
    await tabTo(async () => (await focusedText()).includes("more columns, left out"));
    await page.keyboard.press("Enter");
    await tabTo(() => page.evaluate(() => document.activeElement?.getAttribute("aria-label") === "Column E holds"));
    await page.keyboard.type("Running voltage at t");
    await screenshot(page, "adopt-table-dark");
    await tabTo(async () => (await focusedText()) === "Add the results");
    await page.keyboard.press("Enter");
    await page.waitForSelector("text=The results stand at");
    expect((await formulasOf(page))[0]!.formula).toContain("Running voltage at test speed [V]");
    await page.close();
  });

  it("what was typed beside the table since it was looked at is neither written over nor taken away", async () => {
    const { page, errors } = await pages.open();
    await openList(page);
    const typeNote = (value: string) =>
      page.evaluate((note) => {
        const at = { sheet: "Rental", row: 3, column: 7, rows: 1, columns: 1 };
        window.pane.workbook.edit(at, [[note]]);
      }, value);
    const note = () =>
      page.evaluate(async () => {
        const { values } = await window.pane.workbook.read({ sheet: "Rental", row: 3, column: 7, rows: 1, columns: 1 });
        return values[0]![0];
      });
    const changed = page.getByText("The table has changed meanwhile.");
    await page.fill(".cw-adopt-results input", "G");
    await typeNote("Ask Ann");
    await page.click(".cw-adopt-results .cw-primary");
    await changed.waitFor();
    expect([await note(), await formulasOf(page)]).toEqual(["Ask Ann", []]);
    await page.getByText('"Ask Ann" is in the way: Rental!H4.').waitFor();

    await typeNote("");
    await page.click(".cw-adopt > button");
    await page.click(".cw-adopt-results .cw-primary");
    await page.waitForSelector("text=The results stand at Rental!G2:M5.");
    // Taken back by the undo key, and the place used for something else.
    await page.evaluate(() => {
      const at = { sheet: "Rental", row: 1, column: 6, rows: 4, columns: 7 };
      window.pane.workbook.edit(
        at,
        Array.from({ length: 4 }, () => Array.from({ length: 7 }, () => "")),
      );
    });
    await typeNote("Ask Ann");
    await page.click("text=Take the results away");
    await changed.waitFor();
    expect(await note()).toBe("Ask Ann");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("a write that fails says why and leaves no half", async () => {
    const { page } = await pages.open();
    await openList(page);
    await page.evaluate(() => {
      window.pane.workbook.failNext = 'The sheet "Rental" is protected.';
    });
    await page.click(".cw-adopt-results .cw-primary");
    await page.waitForSelector(".cw-failure");
    expect(await page.textContent(".cw-failure")).toContain("is protected");
    expect(await formulasOf(page)).toEqual([]);
    await page.close();
  });
});
