import type { Browser, Page } from "playwright-core";
import { isCellError } from "../../src/core/cell";
import type { Workbook } from "../../src/workbook/port";
import { violationsInBothLights } from "./axe";
import { goTo, readCell, readCells, typeInto, untilEdited, waitUntilOpen } from "./grid";
import { launchBrowser, screenshot, serveLocalPage, watchedPage, type Served, type Watched } from "./launch";

jest.setTimeout(240_000);

let browser: Browser;
let served: Served;
beforeAll(async () => {
  served = await serveLocalPage();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function open(options: Parameters<typeof watchedPage>[2] = {}): Promise<Watched> {
  const watched = await watchedPage(browser, served.address, options);
  await waitUntilOpen(watched.page);
  return watched;
}

/** The row of a label in the first column of the job sheet, as its cell names count. */
async function rowOf(page: Page, label: string): Promise<number> {
  const { values } = await readCells(page, "Job", "A1:A220");
  const row = values.findIndex(([text]) => text === label);
  expect(row).toBeGreaterThanOrEqual(0);
  return row + 1;
}

describe("the local page", () => {
  let watched: Watched;
  let page: Page;
  beforeAll(async () => {
    watched = await open();
    page = watched.page;
  });
  afterAll(async () => page?.context().close());

  it("shows every sheet of the templates with every cell calculated", async () => {
    for (const [sheet, range] of [
      ["Job", "A1:N220"],
      ["Machines", "A1:Z20"],
      ["Reference", "A1:Z20"],
      ["Fleet", "A1:T60"],
      ["Prices", "A1:Z60"],
      ["Terms", "A1:Z60"],
      ["Quote", "A1:Z80"],
      ["Quotes", "A1:Z20"],
    ] as const) {
      const { values, formulas } = await readCells(page, sheet, range);
      const faults = values.flatMap((line, r) =>
        line.flatMap((cell, c) =>
          isCellError(cell)
            ? [`${sheet} ${r + 1},${c + 1} ${formulas[r]![c]} ${cell.error} ${cell.message ?? ""}`]
            : [],
        ),
      );
      expect(faults).toEqual([]);
      expect(values.flat().filter((cell) => cell !== "").length).toBeGreaterThan(20);
    }
    await screenshot(page, "job-sheet");
  });

  it("calculates a function that is typed into a cell", async () => {
    await typeInto(page, "P3", "=CHG.RESISTANCE(12.6,0,12.1,50)");
    // 0.5 V over 50 A.
    expect(await readCell(page, "Job", "P3")).toBeCloseTo(0.01, 12);
  });

  it("judges a reading as it is typed, in its cell and in the pane", async () => {
    const row = await rowOf(page, "Running voltage at test speed");
    const state = () => readCell(page, "Job", `E${row}`);
    expect(await state()).toBe("fail");
    const before = await page.locator("#pane").innerText();
    await typeInto(page, `B${row}`, "14,3 V");
    expect(await readCell(page, "Job", `B${row}`)).toBe("14,3 V");
    expect(await state()).toBe("pass");
    await page.waitForFunction((text) => document.getElementById("pane")!.innerText !== text, before);
    await typeInto(page, `B${row}`, "12.46");
    expect(await state()).toBe("fail");
  });

  it("takes back an edit with the undo key", async () => {
    const row = await rowOf(page, "Key-off draw");
    const cell = `B${(await readCells(page, "Job", `A${row + 1}:A${row + 1}`)).values[0]![0] === "Key-off draw" ? row + 1 : row}`;
    const before = await readCell(page, "Job", cell);
    await typeInto(page, cell, "80");
    expect(await readCell(page, "Job", cell)).toBe(80);
    await goTo(page, cell);
    await untilEdited(page, cell, () => page.keyboard.press("Control+z"));
    expect(await readCell(page, "Job", cell)).toBe(before);
  });

  it("keeps a word that is typed into a cell with a list, its capitals and one of the shop's own", async () => {
    const row = await rowOf(page, "Battery type");
    for (const word of ["AGM", "agm", "AGM from the donor"]) {
      await typeInto(page, `B${row}`, word);
      expect(await readCell(page, "Job", `B${row}`)).toBe(word);
    }
    await page.waitForFunction(() => document.getElementById("pane")!.innerText.includes('"AGM from the donor"'));
    await typeInto(page, `B${row}`, "AGM");
    await page.waitForFunction(() => !document.getElementById("pane")!.innerText.includes("cannot be read"));
  });

  it("cannot be scrolled away, whatever takes the focus", async () => {
    const hidden = await page.evaluate(() => {
      const { scrollHeight, clientHeight } = document.documentElement;
      return scrollHeight - clientHeight;
    });
    expect(hidden).toBe(0);
  });

  it("tells why a cell holds an error", async () => {
    await typeInto(page, "P4", '=CHG.SOC("abc","flooded")');
    expect(await readCell(page, "Job", "P4")).toMatchObject({
      error: "#VALUE!",
      message: expect.stringContaining("abc"),
    });
  });

  it("says why the selected cell holds an error, its own or one that its row's workings tell, and nothing else", async () => {
    const why = page.locator("#why");
    await goTo(page, "P4");
    await why.getByText(/^P4: .*abc/u).waitFor();
    await untilEdited(page, "P4", () => page.keyboard.press("Delete"));
    const row = await rowOf(page, "Key-off draw");
    const before = await readCell(page, "Job", `B${row}`);
    await typeInto(page, `B${row}`, "11.x mA");
    expect(await readCell(page, "Job", `E${row}`)).toEqual({ error: "#VALUE!" });
    await goTo(page, `E${row}`);
    await why.getByText(`E${row}: Key-off draw: "11.x mA" cannot be read; enter a number in mA`).waitFor();
    expect(await violationsInBothLights(page, "#bar")).toEqual([]);
    // Mended elsewhere while the cell is selected, as from the pane or a phone.
    await page.evaluate(
      async ([number, value]) => {
        const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
        const at = { sheet: "Job", row: Number(number) - 1, column: 1, rows: 1, columns: 1 };
        await workbook.apply([{ do: "write", at, values: [[value as number]] }]);
      },
      [row, before] as const,
    );
    await page.waitForFunction(() => document.getElementById("why")!.textContent === "");
  });

  it("has said nothing on the console and asked nobody else for anything", () => {
    expect({ errors: watched.errors, foreign: watched.foreign }).toEqual({ errors: [], foreign: [] });
  });
});

describe("a date that is typed", () => {
  // Days of a worksheet count from 1899-12-30.
  const day = (year: number, month: number, date: number) => Date.UTC(year, month - 1, date) / 86_400_000 + 25_569;
  it.each([
    ["es-ES", "Trabajo", day(2026, 12, 3)],
    ["en-GB", "Job", day(2026, 12, 3)],
    ["en-US", "Job", day(2026, 3, 12)],
  ])("is read as it is written where the browser speaks %s", async (locale, sheet, slashes) => {
    const { page } = await open({ locale });
    for (const [text, read] of [
      ["3/12/2026", slashes],
      ["3.12.2026", day(2026, 12, 3)],
      ["13/12/2026", day(2026, 12, 13)],
      ["3 dic 2026", day(2026, 12, 3)],
      ["2026-12-03", day(2026, 12, 3)],
      ["31/2/2026", "31/2/2026"],
    ] as const) {
      await typeInto(page, "B6", text);
      expect([text, await readCell(page, sheet, "B6")]).toEqual([text, read]);
    }
    await page.context().close();
  });

  it("is kept and read where the browser names its language in a way of its own", async () => {
    const { page, errors } = await open({ locale: "en-US" });
    await page.evaluate(() => Object.defineProperty(navigator, "language", { value: "en-US@posix" }));
    await typeInto(page, "B6", "3/12/2026");
    expect(await readCell(page, "Job", "B6")).toBe(day(2026, 3, 12));
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe("a number that is a name", () => {
  let page: Page;
  beforeAll(async () => void ({ page } = await open()));
  afterAll(async () => page?.context().close());

  it.each([
    ["Job", "Phone", "B", "01705551234"],
    ["Job", "Job number", "B", "00412"],
    ["Job", "Regulator part number", "B", "3-12"],
    ["Job", "Stator part number", "B", "3E5"],
    ["Prices", "REG-02", "A", "0815"],
  ])("stays as it is typed: %s, %s", async (sheet, label, column, text) => {
    await page.evaluate(async (name) => {
      await (window as unknown as { chargewright: { workbook: Workbook } }).chargewright.workbook.activateSheet(name);
    }, sheet);
    const { values } = await readCells(page, sheet, "A1:A60");
    const cell = `${column}${values.findIndex(([name]) => name === label) + 1}`;
    await typeInto(page, cell, text);
    expect(await readCell(page, sheet, cell)).toBe(text);
  });
});

describe("the layout", () => {
  it("shows one thing at a time on a narrow screen", async () => {
    const { page } = await open({ viewport: { width: 320, height: 640 } });
    const shown = async (id: string) => page.locator(`#${id}`).isVisible();
    expect([await shown("pane"), await shown("sheet")]).toEqual([true, false]);
    await page.waitForSelector(".cw-answer");
    await screenshot(page, "narrow-pane");
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    expect([await shown("pane"), await shown("sheet")]).toEqual([false, true]);
    await screenshot(page, "narrow-sheet");
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow).toBe(0);
    await page.context().close();
  });

  it("leaves the sheets to be chosen where everything is shown at twice its size", async () => {
    const { page } = await open({ viewport: { width: 720, height: 450 }, deviceScaleFactor: 2 });
    const tab = page.locator("#sheet footer").getByText("Job", { exact: true });
    const onTop = await tab.evaluate((shown) => {
      const { x, y, width, height } = shown.getBoundingClientRect();
      return shown.contains(document.elementFromPoint(x + width / 2, y + height / 2));
    });
    expect(onTop).toBe(true);
    await page.context().close();
  });

  it("widens and narrows the pane by the keys and remembers it", async () => {
    const { page } = await open();
    const divider = page.getByRole("separator", { name: "Width of the pane" });
    const width = async () => (await page.locator("#pane").boundingBox())!.width;
    const before = await width();
    await divider.focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowLeft");
    expect(await width()).toBe(before + 96);
    expect(await divider.getAttribute("aria-valuenow")).toBe(String(before + 96));
    await page.reload();
    await waitUntilOpen(page);
    expect(await width()).toBe(before + 96);
    // A window that was narrow for a while takes nothing of it for good.
    await page.setViewportSize({ width: 320, height: 640 });
    await page.waitForSelector('body[data-view="pane"]');
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.waitForFunction((wide) => document.getElementById("pane")!.clientWidth === wide, before + 96);
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    expect(await page.locator("#pane").isVisible()).toBe(false);
    await page.context().close();
  });
});

describe("the language", () => {
  /** Opens the menu of a cell, looks for what it offers, and closes it again. */
  const findInMenu = async (page: Page, offers: readonly string[]): Promise<void> => {
    // The border of a selected cell has no menu, and where borders lie is not told here.
    await goTo(page, "A1");
    const sheet = page.locator('#sheet canvas[id^="univer-sheet-main"]');
    await sheet.click({ button: "right", position: { x: 200, y: 200 } });
    const entry = (name: string) => page.getByText(name, { exact: true });
    for (const name of offers) await entry(name).waitFor();
    await screenshot(page, `cell-menu-${await page.locator("html").getAttribute("lang")}`);
    await page.keyboard.press("Escape");
    await entry(offers[0]!).waitFor({ state: "hidden" });
  };
  const ENGLISH_MENU = ["Copy Special", "Paste Special", "Freeze"];
  const SPANISH_MENU = ["Copiar especial", "Pegado especial", "Inmovilizar"];
  const choose = async (page: Page, language: string) => {
    await page.click("[data-section=settings]");
    await page.getByRole("radio", { name: language }).check();
  };

  it("is the grid's own too: on its buttons, in its menus and while it calculates, and the chosen one at once", async () => {
    const { page, errors, foreign } = await open({ locale: "es-MX" });
    await findInMenu(page, SPANISH_MENU);
    await typeInto(page, "P3", "=DOLLAR(1234.5)");
    // The currency is the workbook's, not the language's.
    expect(await readCell(page, "Trabajo", "P3")).toContain("$1,234.50");

    await choose(page, "English");
    await page.locator("#sheet [aria-label=More]").first().waitFor();
    await findInMenu(page, ENGLISH_MENU);
    await choose(page, "Español");
    await page.locator("#sheet [aria-label=Más]").first().waitFor();
    await findInMenu(page, SPANISH_MENU);

    await page.waitForSelector('html[data-kept="all"]');
    await page.addInitScript(() => {
      // The grid says that it calculates once that has taken a second, which a fast machine does not need.
      const wait = window.setTimeout.bind(window);
      const sooner = (act: () => void, ms?: number): number => {
        if (ms !== 1000) return wait(act, ms);
        queueMicrotask(act);
        return 0;
      };
      Object.assign(window, { setTimeout: sooner });
      const said: string[] = [];
      Object.assign(window, { said });
      new MutationObserver((changes) => {
        for (const { target } of changes) if (/^Calc/u.test(target.textContent ?? "")) said.push(target.textContent!);
      }).observe(document, { subtree: true, childList: true, characterData: true });
    });
    // A calculation pauses after a fifth of a second, and only then is drawn what the grid says meanwhile.
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: 8 });
    await page.reload();
    await waitUntilOpen(page);
    // Done may come and go between two frames.
    await page.waitForFunction(() => (window as unknown as { said: string[] }).said.length > 0);
    const said = await page.evaluate(() => (window as unknown as { said: string[] }).said);
    expect(said).toContain("Calculando …");
    expect(said.filter((text) => !["Calculando …", "Calculado"].includes(text))).toEqual([]);
    expect({ errors, foreign }).toEqual({ errors: [], foreign: [] });
    await page.context().close();
  });
});
