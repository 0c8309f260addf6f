import type { Page } from "playwright-core";
import type { Cell } from "../../src/core/cell";
import { PanePages } from "../pane/open-pane";

jest.setTimeout(240_000);

const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

const rowsOf = (page: Page, sheet: string): Promise<readonly (readonly Cell[])[]> =>
  page.evaluate(async (name) => {
    const book = window.pane.workbook;
    return (await book.read(await book.usedArea(name))).values;
  }, sheet);
const filled = (rows: readonly (readonly Cell[])[]) => rows.filter((row) => row.some((cell) => cell !== "")).length;

async function type(page: Page, reading: string, text: string): Promise<void> {
  await page.fill(`[data-entry="${reading}"]`, text);
  await page.press(`[data-entry="${reading}"]`, "Enter");
}

/** The catalogue's own labels of the diode check, in the columns of the list. */
async function partRows(page: Page, number: string): Promise<readonly (readonly Cell[])[]> {
  return (await rowsOf(page, "Reference")).filter((row) => row[0] === number);
}

describe("the shop's own records", () => {
  it("a known-good part is added only complete and with its number, and then gives its interval", async () => {
    const { page, errors } = await pages.open({ demo: true });
    await page.click("[data-section=knownGood]");
    const add = page.locator(".cw-add button");
    expect(await add.isDisabled()).toBe(true);

    await page.click("[data-section=job]");
    await page.click("#cw-open-facts");
    await type(page, "regulator-part-number", "RR-5501");
    await page.click(".cw-back");
    const before = filled(await rowsOf(page, "Reference"));
    await page.click("[data-section=knownGood]");
    expect(await page.inputValue(".cw-known select")).toBe("RR-5501");
    await add.click();
    await page.waitForSelector(".cw-intervals");
    const added = await partRows(page, "RR-5501");
    expect(added.length).toBe(1);
    expect(filled(await rowsOf(page, "Reference"))).toBe(before + 1);
    expect(added[0]).toContain(0.112);
    expect(added[0]!.filter((cell) => cell === "OL").length).toBe(6);
    // One good part is compared reading by reading: its own value lies in what is expected.
    const cells = await page.locator(".cw-intervals tbody tr").first().locator("td").allTextContents();
    const [low, high] = cells[0]!.split("–").map(Number);
    expect(low).toBeLessThan(0.112);
    expect(high).toBeGreaterThan(0.112);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("with a known-good part of its number, a bank that reads low is no longer unexplained", async () => {
    const { page } = await pages.open({ demo: true });
    const partState = () => page.getAttribute(".cw-map ~ p [data-state]", "data-state");
    await page.click("#cw-open-facts");
    await type(page, "regulator-part-number", "RR-5501");
    await page.click(".cw-back");
    await page.click("#cw-open-diode-check");
    const alone = await partState();
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Reference"));
      const header = values.findIndex((row) => row[0] === "Regulator part number");
      const reading = (name: string) =>
        name.startsWith("Upper, forward")
          ? 0.11
          : name.startsWith("Lower, forward")
            ? 0.5
            : name.includes("reverse")
              ? "OL"
              : "";
      const row: (string | number)[] = values[header]!.map((cell) => reading(String(cell)));
      row[0] = "RR-5501";
      const free = values.findIndex((line, i) => i > header && line.every((cell) => cell === ""));
      book.edit({ sheet: "Reference", row: free < 0 ? values.length : free, column: 0, rows: 1, columns: row.length }, [
        row,
      ]);
    });
    await page.waitForFunction(
      (before) => document.querySelector(".cw-map ~ p [data-state]")!.getAttribute("data-state") !== before,
      alone,
    );
    expect(alone).toBe("unproven");
    expect(await partState()).toBe("serviceable");
    await page.close();
  });

  it("closing a job writes one row of the visits, and a second time none", async () => {
    const { page } = await pages.open({ demo: true });
    // The demo's list holds this very visit: what is compared with is the one before it.
    expect(await page.locator(".cw-visits summary").first().textContent()).toContain("2026-08-03");
    // The job of a day that is not in the list yet.
    await page.click("#cw-open-facts");
    await type(page, "visit-date", "2026-11-24");
    await page.click(".cw-back");
    const before = filled(await rowsOf(page, "Fleet"));
    const close = page.locator(".cw-close-job");
    await close.click();
    await page.waitForSelector("text=Written down on Fleet");
    expect(filled(await rowsOf(page, "Fleet"))).toBe(before + 1);
    await close.click();
    await page.waitForSelector("text=it was not written again");
    expect(filled(await rowsOf(page, "Fleet"))).toBe(before + 1);
    // What is read later that day is written where the row has nothing yet, and named where it has something else.
    await page.evaluate(async () => {
      const book = window.pane.workbook;
      const { values } = await book.read(await book.usedArea("Job"));
      for (const [label, value] of [
        ["Rested voltage", 12.7],
        ["AC ripple at the battery", 0.123],
      ] as const) {
        const row = values.findIndex((line) => line[0] === label);
        book.edit({ sheet: "Job", row, column: 1, rows: 1, columns: 1 }, [[value]]);
      }
    });
    await close.click();
    await page.waitForSelector("text=Left as it is there, where it says otherwise: Rested voltage.");
    const [again] = (await rowsOf(page, "Fleet")).filter((line) => line.includes("2026-11-24"));
    expect([again!.includes(0.123), again!.includes(12.41)]).toEqual([true, true]);
    expect(filled(await rowsOf(page, "Fleet"))).toBe(before + 1);
    await page.locator(".cw-visits summary").first().click();
    expect(await page.locator(".cw-compare").textContent()).toContain("12.41");
    await page.close();
  });

  it("an earlier visit is opened again on a sheet of its own, once", async () => {
    const { page, errors } = await pages.open({ demo: true });
    await page.locator(".cw-visits summary").last().click();
    await page.click("text=Open the job of 2026-08-03 again");
    await page.waitForFunction(
      () => document.querySelector<HTMLSelectElement>(".cw-job-bar select")!.value === "Job 2",
    );
    expect(await page.locator(".cw-job-bar option").allTextContents()).toEqual([
      expect.stringMatching(/^Job · .+ · 2026-\d\d-\d\d$/u),
      expect.stringMatching(/^Job 2 · .+ · 2026-08-03$/u),
    ]);
    const rows = await rowsOf(page, "Job 2");
    expect(rows.find((row) => row[0] === "Rested voltage")![1]).toBe(12.79);
    // The other visit came after it.
    await page.waitForSelector("text=No earlier visit of Quad 7 is written down.");
    // The visit that is open now is the one before; asked again, its own sheet comes up.
    await page.selectOption(".cw-job-bar select", "Job");
    await page.waitForSelector("text=Last visit 2026-08-03");
    await page.locator(".cw-visits summary").last().click();
    await page.click("text=Open the job of 2026-08-03 again");
    await page.waitForFunction(
      () => document.querySelector<HTMLSelectElement>(".cw-job-bar select")!.value === "Job 2",
    );
    expect(await page.evaluate(() => window.pane.workbook.sheetNames())).not.toContain("Job 3");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("the picker and the counter know a job by what stands in its sheet now", async () => {
    const { page, errors } = await pages.open({ demo: true });
    await page.click("#cw-open-facts");
    await type(page, "machine-name", "Mower 7");
    await type(page, "customer", "Ada Lindqvist");
    await page.click(".cw-back");
    await page.waitForFunction(() =>
      document.querySelector(".cw-job-bar option")?.textContent?.startsWith("Job · Mower 7 · "),
    );
    await page.click("[data-section=counter]");
    await page.getByRole("searchbox").fill("lindqvist");
    await page.getByText("1 job", { exact: true }).waitFor();
    expect(errors).toEqual([]);
    await page.close();
  });

  it("a visit is written down where its list is now, whatever became of its name and its rows", async () => {
    const { page, errors } = await pages.open({ demo: true });
    const before = await rowsOf(page, "Fleet");
    await page.click("#cw-open-facts");
    await type(page, "visit-date", "2026-12-02");
    await page.click(".cw-back");
    await page.waitForSelector(".cw-close-job");
    const head = before.findIndex((row) => row[0] === "Machine");
    await page.evaluate((row) => {
      window.pane.workbook.insertRow("Fleet", row, ["Mower 9", "2026-10-01"]);
      window.pane.workbook.renameSheet("Fleet", "Visits of 2026");
    }, head + 1);
    await page.click(".cw-close-job");
    await page.waitForSelector("text=Written down on Visits of 2026");
    const after = await rowsOf(page, "Visits of 2026");
    const named = (rows: typeof after) => rows.slice(head + 1).flatMap(([name]) => (name ? [name] : []));
    expect(named(after)).toEqual(["Mower 9", ...named(before), "Quad 7"]);
    expect(errors).toEqual([]);
    await page.close();
  });

  it("a job without a date is closed on the day of this computer, and a list is laid out where there is none", async () => {
    const { page, errors } = await pages.open();
    await page.click("text=Start a job");
    await page.waitForSelector(".cw-answer");
    await page.click("#cw-open-facts");
    await type(page, "machine-name", "Quad 31");
    await page.click(".cw-back");
    await page.click("#cw-open-battery-at-rest");
    await type(page, "rested-voltage", "12.7");
    await page.click(".cw-back");
    await page.click("text=Lay out the list of visits");
    await page.waitForSelector(".cw-close-job");
    const today = await page.evaluate(() => {
      const now = new Date();
      return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
    });
    await page.click(".cw-close-job");
    await page.waitForSelector("text=Written down on Fleet");
    const row = (await rowsOf(page, "Fleet")).find((cells) => cells[0] === "Quad 31")!;
    expect(row.slice(0, 5)).toEqual(["Quad 31", today, "", "", 12.7]);
    expect((await rowsOf(page, "Job")).find((cells) => cells[0] === "Date")![1]).toBe(today);
    await page.click(".cw-close-job");
    await page.waitForSelector("text=it was not written again");
    expect(errors).toEqual([]);
    await page.close();
  });

  it("a repair is proven only when what showed the fault is taken again and nothing fails", async () => {
    const { page } = await pages.open({ demo: true });
    await page.click("#cw-open-proof");
    const outcome = () => page.getAttribute("[data-outcome]", "data-outcome");
    expect(await outcome()).toBe("not read");
    await type(page, "rested-voltage", "12.8");
    await page.waitForSelector('[data-outcome="unproven"]');
    await type(page, "test-rpm", "5000");
    await type(page, "test-voltage", "12.2");
    await page.waitForSelector('[data-outcome="not repaired"]');
    await type(page, "test-voltage", "14.3");
    await page.waitForSelector("text=Not proven yet: take again what showed the fault");
    await type(page, "battery-current", "3.1");
    await page.waitForSelector('[data-outcome="repaired"]');
    // What was read before the repair stands as it was.
    const rows = await rowsOf(page, "Job");
    const labelled = rows.filter((row) => row[0] === "Running voltage at test speed").map((row) => row[1]);
    expect(labelled).toEqual([12.46, 14.3]);
    await page.close();
  });
});
