import { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { CellWrite, Step } from "../../../src/workbook/port";
import { workbookContract } from "../contract";
import { area, open, write } from "./open-excel";
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

describe("Excel behind the port: as every host", () => {
  workbookContract(
    async () => ({ workbook: open("Sheet1").workbook }),
    // The stand-in does not calculate and has no keyboard; following edits is tested below.
    { calculates: false, typedInto: false, undoes: false },
  );
});

describe("Excel behind the port: reading", () => {
  it("names its sheets, the active one, and goes to another", async () => {
    const { workbook, book } = open("Job", "Machines");
    expect(await workbook.sheetNames()).toEqual(["Job", "Machines"]);
    expect(await workbook.activeSheet()).toBe("Job");
    await workbook.activateSheet("Machines");
    expect(book.active).toBe(1);
    await expect(workbook.activateSheet("Nowhere")).rejects.toMatchObject({ name: "WorkbookFault", reason: "missing" });
  });

  it("knows the filled part of a sheet from its first cell on", async () => {
    const { workbook, book } = open();
    expect(await workbook.usedArea("Job")).toEqual(area("Job", 0, 0, 0, 0));
    book.enter(book.sheet("Job"), 3, 2, 12.6);
    expect(await workbook.usedArea("Job")).toEqual(area("Job", 0, 0, 4, 3));
  });

  it("reads values and formulas in one round trip: numbers, text, truth values, blanks, errors", async () => {
    const { workbook, book, excel } = open();
    const sheet = book.sheet("Job");
    book.compute = (formula) => [[formula.includes("/0") ? "#DIV/0!" : 24]];
    for (const [column, entered] of [12.6, "flooded", true, "=A1*2", "=A1/0", "'=not a formula"].entries())
      book.enter(sheet, 0, column, entered);
    expect(await workbook.read(area("Job", 0, 0, 1, 7))).toEqual({
      values: [[12.6, "flooded", true, 24, { error: "#DIV/0!" }, "=not a formula", ""]],
      formulas: [["", "", "", "=A1*2", "=A1/0", "", ""]],
    });
    expect(excel.runs.at(-1)!.context.syncs).toBe(1);
  });

  it("reads 20,000 rows of five columns in four round trips", async () => {
    const { workbook, excel } = open();
    const { values } = await workbook.read(area("Job", 0, 0, 20_000, 5));
    expect([values.length, values[19_999]!.length]).toEqual([20_000, 5]);
    expect(excel.runs.at(-1)!.context.syncs).toBe(4);
  });

  it("tells merged cells that touch an area", async () => {
    const { workbook, book } = open("Old jobs, 2024");
    book.sheet("Old jobs, 2024").merges.push(area("", 0, 0, 1, 4), area("", 5, 1, 2, 2));
    expect(await workbook.mergedIn(area("Old jobs, 2024", 0, 0, 6, 2))).toEqual([
      area("Old jobs, 2024", 0, 0, 1, 4),
      area("Old jobs, 2024", 5, 1, 2, 2),
    ]);
    expect(await workbook.mergedIn(area("Old jobs, 2024", 2, 0, 2, 2))).toEqual([]);
  });

  it("tells the selection, or the active cell where several areas are selected", async () => {
    const { workbook, book } = open();
    book.selected = { row: 4, column: 1, rows: 3, columns: 2 };
    expect(await workbook.selection()).toEqual(area("Job", 4, 1, 3, 2));
    book.severalSelected = true;
    expect(await workbook.selection()).toEqual(area("Job", 4, 1, 1, 1));
    await workbook.select(area("Job", 9, 3));
    expect(book.selected).toMatchObject({ row: 9, column: 3 });
  });
});

describe("Excel behind the port: writing", () => {
  it("writes values and formulas in two round trips, as one undo step, and leaves other cells alone", async () => {
    const { workbook, book, excel } = open();
    book.enter(book.sheet("Job"), 0, 1, "kept");
    await workbook.apply([
      write("Job", 0, 0, [
        [12.6, undefined, { formula: "=A1*2" }],
        ["", true, "text"],
      ]),
    ]);
    expect((await workbook.read(area("Job", 0, 0, 2, 3))).values).toEqual([
      [12.6, "kept", "<=A1*2>"],
      ["", true, "text"],
    ]);
    const run = excel.runs.find(({ options }) => options.mergeUndoGroup)!;
    expect(run.options).toEqual({ delayForCellEdit: true, mergeUndoGroup: true });
    expect(run.context.syncs).toBe(2);
  });

  it("groups for undo only where Excel can", async () => {
    const book = new StrictBook("Job");
    const excel = new StrictExcel(book);
    excel.version = 14;
    const workbook = new ExcelWorkbook(excel);
    expect(workbook.host).toEqual({ kind: "excel", tables: true, undo: false });
    await workbook.apply([write("Job", 0, 0, [[1]])]);
    expect(excel.runs[0]!.options).toEqual({ delayForCellEdit: true });
  });

  for (const text of [
    "12.6 V",
    "12.6",
    ".35",
    "1/2",
    "5-6",
    "May 5",
    "50 %",
    "TRUE",
    "=A1",
    "+12",
    "-1",
    "@home",
    "'quoted",
    "007",
    "OL",
    "∞",
    ">50M",
    "−",
    " x",
    "#N/A",
    "Ω",
    "note, 12",
  ]) {
    it(`keeps the text "${text}" text`, async () => {
      const { workbook } = open();
      await workbook.apply([write("Job", 0, 0, [[text]])]);
      expect((await workbook.read(area("Job", 0, 0))).values).toEqual([[text]]);
      expect((await workbook.read(area("Job", 0, 0))).formulas).toEqual([[""]]);
    });
  }

  it("builds a new sheet in one batch", async () => {
    const { workbook, book, excel } = open();
    await workbook.apply([
      { do: "add sheet", sheet: "Fleet" },
      write("Fleet", 0, 0, [
        ["Machine", "Volts"],
        ["Tractor 3", 12.6],
      ]),
      {
        do: "format",
        at: area("Fleet", 0, 0, 1, 2),
        format: { bold: true, fill: "DCE6EA", border: "bottom", number: "0.0" },
      },
      { do: "merge", at: area("Fleet", 5, 0, 1, 3) },
      { do: "column width", sheet: "Fleet", column: 0, characters: 24 },
      { do: "row height", sheet: "Fleet", row: 0, points: 22 },
      { do: "freeze", sheet: "Fleet", rows: 1, columns: 0 },
      {
        do: "print",
        at: area("Fleet", 0, 0, 20, 3),
        setup: { orientation: "landscape", fitWidthPages: 1, titleRows: 1, footer: "Page &P" },
      },
      { do: "table", at: area("Fleet", 0, 0, 2, 2), name: "FleetTable" },
      { do: "name", name: "FleetVolts", at: area("Fleet", 1, 1) },
      { do: "validate", at: area("Fleet", 1, 0), rule: { kind: "hint", title: "Machine", message: "As on the plate" } },
      {
        do: "colour rule",
        at: area("Fleet", 1, 1),
        rule: { words: [{ equals: "fail", fill: "F6D5D0", colour: "8A1C10" }], decidedBy: { rows: 0, columns: 1 } },
      },
      {
        do: "chart",
        sheet: "Fleet",
        chart: {
          title: "Volts",
          kind: "line",
          series: [{ name: "Volts", y: area("Fleet", 1, 1) }],
          xTitle: "Visit",
          yTitle: "V",
          anchor: { row: 8, column: 0, rows: 12, columns: 4 },
        },
      },
    ]);
    const sheet = book.sheet("Fleet");
    expect(sheet.cells.get("0,0")!.looks).toMatchObject({
      font: { bold: true },
      fill: { color: "#DCE6EA", pattern: "Solid" },
    });
    expect(sheet.cells.get("0,0")!.numberFormat).toBe("0.0");
    expect(sheet.merges).toEqual([{ row: 5, column: 0, rows: 1, columns: 3 }]);
    expect(sheet.widths.get(0)).toBe(129.75); // 24 characters: 173 pixels of 3/4 point
    expect(sheet.frozen).toEqual({ rows: 1, columns: 0 });
    expect(sheet.print).toMatchObject({
      orientation: "Landscape",
      zoom: { horizontalFitToPages: 1 },
      area: "$A$1:$C$20",
      titles: "$1:$1",
      footer: "Page &P",
      // As in files: 0.3 and 0.4 inches of 72 points.
      margins: { topMargin: expect.closeTo(21.6, 9), bottomMargin: 28.8, leftMargin: 28.8, rightMargin: 28.8 },
    });
    expect(sheet.tables).toMatchObject([{ name: "FleetTable", at: { row: 0, column: 0, rows: 2, columns: 2 } }]);
    expect(book.names.get("FleetVolts")).toBe("=Fleet!$B$2");
    expect(sheet.cells.get("1,0")!.validation).toMatchObject({
      rule: { custom: { formula: "=TRUE" } },
      prompt: { title: "Machine" },
    });
    expect(sheet.rules).toMatchObject([{ formula: '=C2="fail"', fill: "#F6D5D0", colour: "#8A1C10" }]);
    expect(sheet.charts).toMatchObject([
      { name: "Volts", detail: { kind: "Line", source: "Fleet!$B$2", position: "A9:D20" } },
    ]);
    expect(excel.runs.at(-1)!.context.syncs).toBe(2);
  });

  it("draws what is expected as lines and what was read as marks", async () => {
    const { workbook, book } = open();
    const series = (drawn: "line" | "marks", column: number) =>
      ({ name: drawn, x: area("Job", 0, 0), y: area("Job", 0, column), drawn }) as const;
    const chart = {
      title: "Curve",
      kind: "scatter",
      series: [series("line", 1), series("marks", 2)],
      xTitle: "rpm",
      yTitle: "V",
      anchor: { row: 8, column: 0, rows: 12, columns: 4 },
    } as const;
    await workbook.apply([{ do: "chart", sheet: "Job", chart }]);
    expect(book.sheet("Job").charts[0]!.detail).toMatchObject({
      kind: "XYScatter",
      "series 0 drawn": "XYScatterLinesNoMarkers",
      "series 1 drawn": "XYScatter",
      "series 1 x": "Job!$A$1",
    });
  });

  it("shows choices that a list of Excel cannot hold as a hint", async () => {
    const { workbook, book } = open();
    const list = (choices: string[]): Step => ({
      do: "validate",
      at: area("Job", 0, 0),
      rule: { kind: "list", choices, message: "Choose one." },
    });
    await workbook.apply([list(["flooded", "agm"])]);
    expect(book.sheet("Job").cells.get("0,0")!.validation).toMatchObject({
      rule: { list: { source: "flooded,agm" } },
      // What a person types is kept, also where the list says it in another way.
      errorAlert: { showAlert: false },
      prompt: { message: "Choose one." },
    });
    for (const choices of [["pass", "fail, twice"], Array.from({ length: 60 }, (_, i) => `kind ${i}`)]) {
      await workbook.apply([list(choices)]);
      const made = book.sheet("Job").cells.get("0,0")!.validation as { rule: object; prompt: { message: string } };
      expect(made.rule).toEqual({ custom: { formula: "=TRUE" } });
      expect(made.prompt.message).toMatch(/^Choose one\. (?:pass|kind 0) /u);
      expect(made.prompt.message.length).toBeLessThanOrEqual(255);
    }
  });

  it("can be given the same table, name, merge and chart twice", async () => {
    const { workbook, book } = open();
    const batch: Step[] = [
      write("Job", 0, 0, [
        ["Check", "Reading"],
        ["Rested voltage", 12.6],
      ]),
      { do: "table", at: area("Job", 0, 0, 2, 2), name: "Readings" },
      { do: "name", name: "RestedVolts", at: area("Job", 1, 1) },
      { do: "merge", at: area("Job", 4, 0, 1, 2) },
      {
        do: "chart",
        sheet: "Job",
        chart: {
          title: "Volts",
          kind: "scatter",
          series: [{ name: "V", x: area("Job", 1, 0), y: area("Job", 1, 1) }],
          xTitle: "",
          yTitle: "",
          anchor: { row: 8, column: 0, rows: 5, columns: 5 },
        },
      },
    ];
    await workbook.apply(batch);
    const once = book.snapshot();
    await workbook.apply(batch);
    expect(book.snapshot()).toBe(once);
  });

  it("writes 20,000 rows of results in bands and calculates after each", async () => {
    const { workbook, book, excel } = open();
    const rows = Array.from({ length: 20_000 }, (_, r): CellWrite[] => [r, `row ${r}`, { formula: `=A${r + 1}` }]);
    await workbook.apply([write("Job", 0, 0, rows)]);
    expect(book.sheet("Job").cells.get("19999,0")!.value).toBe(19_999);
    expect(excel.runs.at(-1)!.context.syncs).toBeLessThanOrEqual(5);
  });
});
