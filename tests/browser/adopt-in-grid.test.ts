import type { Browser, Page } from "playwright-core";
import { goTo, readCell, readCells, typeInto, waitUntilOpen } from "./grid";
import { launchBrowser, serveLocalPage, watchedPage, type Served } from "./launch";

jest.setTimeout(240_000);

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

/** Typed far from the template's own cells, on the list of known-good parts; the place does not matter. */
const TYPED: readonly (readonly [string, string])[] = [
  ["AD3", "Unit no"],
  ["AE3", "Rested volts"],
  ["AF3", "Draw (mA)"],
  ["AD4", "Q-31"],
  ["AE4", "12.3"],
  ["AF4", "0.35 A"],
  ["AD5", "Q-32"],
  ["AE5", "12,8 V"],
  ["AF5", "2"],
];

describe("a table typed into the grid", () => {
  it("gets its results beside it, follows an edit, and one undo takes them away", async () => {
    await page.evaluate(async () => {
      const { workbook } = (
        window as unknown as { chargewright: { workbook: { activateSheet(name: string): Promise<void> } } }
      ).chargewright;
      await workbook.activateSheet("Reference");
    });
    for (const [cell, text] of TYPED) await typeInto(page, cell, text);
    await goTo(page, "AE4");
    const pane = page.locator("#pane");
    await pane.getByRole("button", { name: "Your table" }).click();
    await pane.getByRole("button", { name: "Look at the selected table" }).click();
    await pane.getByText("Reference!AD3:AF5 · 2 machine rows").waitFor();
    // "Draw" alone could be many things: it is told by hand.
    await pane.locator(".cw-adopt details summary").click();
    await pane.getByLabel("Column AF holds").selectOption("key-off-draw");
    await pane.getByText("Results will stand at Reference!AH3:AN5.").waitFor();
    await pane.getByRole("button", { name: "Add the results" }).click();
    await pane.locator(".cw-done").waitFor();
    const { values } = await readCells(page, "Reference", "AH3:AN5");
    expect(values[0]).toEqual(["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"]);
    expect(values[1]!.slice(0, 2)).toEqual(["load", "faulty"]);
    expect(values[2]![1]).not.toBe("faulty");

    await typeInto(page, "AF4", "1");
    expect(await readCell(page, "Reference", "AI4")).not.toBe("faulty");
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await page.waitForFunction(async () => {
      const { workbook } = (
        window as unknown as { chargewright: { workbook: { read(at: object): Promise<{ values: unknown[][] }> } } }
      ).chargewright;
      const { values: cells } = await workbook.read({ sheet: "Reference", row: 2, column: 33, rows: 3, columns: 7 });
      return cells.flat().every((cell) => cell === "");
    });
    expect(await readCell(page, "Reference", "AF4")).toBe("0.35 A");
  });
});

describe("a reading typed in the pane, on top of the big table", () => {
  it("is judged in the pane and in its cell, again and again", async () => {
    await page.locator("#pane").getByRole("button", { name: "Job", exact: true }).click();
    await page.locator("#cw-open-running-test").click();
    const { values } = await readCells(page, "Job", "A1:A220");
    const row = values.findIndex(([label]) => label === "Running voltage at test speed") + 1;
    const field = page.locator('[data-entry="test-voltage"]');
    for (const [text, state] of [
      ["14.2", "pass"],
      ["11.8", "fail"],
      ["14.3", "pass"],
      ["11.9", "fail"],
      ["14.4", "pass"],
      ["12", "fail"],
      ["14.1", "pass"],
    ] as const) {
      await field.fill(text);
      await page.locator(`[data-reading="test-voltage"] [data-state="${state}"]`).first().waitFor();
      await field.press("Enter");
      expect(await readCell(page, "Job", `E${row}`)).toBe(state);
    }
  });
});
