import { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { Area, CellWrite, Step } from "../../../src/workbook/port";
import { workbookContract } from "../contract";
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

function open(...sheets: string[]) {
  const book = new StrictBook(...(sheets.length > 0 ? sheets : ["Job"]));
  const excel = new StrictExcel(book);
  return { book, excel, workbook: new ExcelWorkbook(excel) };
}

function area(sheet: string, row: number, column: number, rows = 1, columns = 1): Area {
  return { sheet, row, column, rows, columns };
}

function write(sheet: string, row: number, column: number, values: CellWrite[][]): Step {
  return { do: "write", at: area(sheet, row, column, values.length, values[0]!.length), values };
}

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
    expect(workbook.host).toEqual({ kind: "excel", charts: true, tables: true, undo: false });
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

  it("shows choices that a list of Excel cannot hold as a hint", async () => {
    const { workbook, book } = open();
    const list = (choices: string[]): Step => ({
      do: "validate",
      at: area("Job", 0, 0),
      rule: { kind: "list", choices, message: "Choose one." },
    });
    await workbook.apply([list(["flooded", "agm"])]);
    expect(book.sheet("Job").cells.get("0,0")!.validation).toMatchObject({ rule: { list: { source: "flooded,agm" } } });
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

describe("Excel behind the port: refusing", () => {
  const refused = async (book: StrictBook, workbook: ExcelWorkbook, batch: Step[], reason: string, message: RegExp) => {
    const before = book.snapshot();
    await expect(workbook.apply(batch)).rejects.toMatchObject({
      name: "WorkbookFault",
      reason,
      message: expect.stringMatching(message),
    });
    expect(book.snapshot()).toBe(before);
  };

  it("a sheet name that is taken", async () => {
    const { book, workbook } = open();
    await refused(book, workbook, [{ do: "add sheet", sheet: "job" }], "occupied", /There is a sheet "job" already/u);
  });

  it("a sheet that is not there", async () => {
    const { book, workbook } = open();
    await refused(
      book,
      workbook,
      [write("Gone", 0, 0, [[1]])],
      "missing",
      /There is no sheet "Gone" in this workbook/u,
    );
  });

  it("values for the hidden part of merged cells", async () => {
    const { book, workbook } = open();
    book.sheet("Job").merges.push({ row: 0, column: 0, rows: 1, columns: 3 });
    await refused(book, workbook, [write("Job", 0, 0, [["Title", "lost"]])], "merged", /Job!A1:C1 is merged/u);
    await workbook.apply([write("Job", 0, 0, [["Title", undefined, ""]])]);
  });

  it("a protected sheet, unless the cells are unlocked", async () => {
    const { book, workbook } = open();
    const sheet = book.sheet("Job");
    book.cell(sheet, 0, 0).locked = false;
    sheet.protected = true;
    await refused(book, workbook, [write("Job", 0, 0, [[1, 2]])], "protected", /"Job" is protected/u);
    await refused(
      book,
      workbook,
      [{ do: "format", at: area("Job", 0, 0), format: { bold: true } }],
      "protected",
      /Unprotect Sheet/u,
    );
    await workbook.apply([write("Job", 0, 0, [[12.6]])]);
    expect(book.cell(sheet, 0, 0).value).toBe(12.6);
  });

  it("a spill over filled cells, but not over its own last result", async () => {
    const { book, workbook } = open();
    book.compute = () => [[1], [2], [3]];
    const spill: Step = write("Job", 0, 0, [[{ formula: "=CHG.SOC(B1:B3)", spills: { rows: 3, columns: 1 } }]]);
    await workbook.apply([spill]);
    await workbook.apply([spill]);
    expect((await workbook.read(area("Job", 0, 0, 3, 1))).values).toEqual([[1], [2], [3]]);
    await refused(book, workbook, [write("Job", 2, 0, [["x"]])], "occupied", /Job!A3 is filled by the formula in A1/u);
    book.enter(book.sheet("Job"), 1, 2, "mine");
    await refused(
      book,
      workbook,
      [write("Job", 0, 2, [[{ formula: "=X()", spills: { rows: 3, columns: 1 } }]])],
      "occupied",
      /spill over Job!C1:C3/u,
    );
  });

  it("merging cells that hold something, or across merged cells", async () => {
    const { book, workbook } = open();
    book.enter(book.sheet("Job"), 0, 1, "mine");
    await refused(book, workbook, [{ do: "merge", at: area("Job", 0, 0, 1, 2) }], "occupied", /would lose/u);
    book.sheet("Job").merges.push({ row: 3, column: 0, rows: 2, columns: 1 });
    await refused(
      book,
      workbook,
      [{ do: "merge", at: area("Job", 4, 0, 1, 2) }],
      "merged",
      /Job!A4:A5 is merged already/u,
    );
  });

  it("a table over another, over merged cells, or of a name that is taken", async () => {
    const { book, workbook } = open();
    await workbook.apply([{ do: "table", at: area("Job", 0, 0, 3, 2), name: "Readings" }]);
    await refused(
      book,
      workbook,
      [{ do: "table", at: area("Job", 2, 1, 3, 2), name: "Other" }],
      "occupied",
      /touches the table Readings/u,
    );
    await refused(
      book,
      workbook,
      [{ do: "table", at: area("Job", 9, 0, 3, 2), name: "READINGS" }],
      "occupied",
      /name READINGS is taken/u,
    );
    book.sheet("Job").merges.push({ row: 9, column: 0, rows: 1, columns: 2 });
    await refused(
      book,
      workbook,
      [{ do: "table", at: area("Job", 9, 0, 3, 2), name: "Other" }],
      "merged",
      /merged cells Job!A10:B10/u,
    );
  });

  it("a name that means another place", async () => {
    const { book, workbook } = open();
    book.names.set("RestedVolts", "=Other!$A$1");
    await refused(
      book,
      workbook,
      [{ do: "name", name: "RestedVolts", at: area("Job", 0, 0) }],
      "occupied",
      /RestedVolts is taken/u,
    );
  });

  it("cells with rules of their own for what may be entered", async () => {
    const { book, workbook } = open();
    book.cell(book.sheet("Job"), 0, 0).validation = { rule: { custom: { formula: "=A1>0" } } };
    const hint: Step = {
      do: "validate",
      at: area("Job", 0, 0, 2, 1),
      rule: { kind: "hint", title: "t", message: "m" },
    };
    await refused(book, workbook, [hint], "occupied", /have rules for what may be entered/u);
  });

  it("says so when a cell is being edited", async () => {
    const { workbook, excel } = open();
    excel.failure = { at: 1, code: "InvalidOperationInCellEditMode" };
    await expect(workbook.sheetNames()).rejects.toMatchObject({
      message: expect.stringMatching(/Press Enter or Esc/u),
      reason: "host",
    });
  });
});

describe("Excel behind the port: following", () => {
  const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

  it("tells edits by hand with the sheet's name, and none of its own", async () => {
    const { workbook, excel } = open("Job", "Fleet");
    const seen: Area[] = [];
    const stop = workbook.onEdit((change) => seen.push(change));
    await settle();
    await excel.fire("onChanged", "Fleet", "B2:C3,E5");
    await excel.fire("onChanged", "Job", "A1", "ThisLocalAddin");
    await excel.fire("onChanged", "Job", "C:D");
    await excel.fire("onChanged", "Job", "4:4");
    expect(seen).toEqual([
      area("Fleet", 1, 1, 2, 2),
      area("Fleet", 4, 4),
      area("Job", 0, 2, 1_048_576, 2),
      area("Job", 3, 0, 1, 16_384),
    ]);
    stop();
    stop();
    await settle();
    expect(excel.handlers.onChanged.size).toBe(0);
  });

  it("tells the first of several selected areas", async () => {
    const { workbook, excel } = open();
    const seen: Area[] = [];
    workbook.onSelection((at) => seen.push(at));
    await settle();
    await excel.fire("onSelectionChanged", "Job", "B2,D4:D6");
    expect(seen).toEqual([area("Job", 1, 1)]);
  });

  it("tells a burst of recalculations once", async () => {
    const { workbook, excel } = open();
    let told = 0;
    const stop = workbook.onCalculated(() => told++);
    await settle();
    for (let i = 0; i < 5; i++) await excel.fire("onCalculated", "Job", "");
    await new Promise((resolve) => setTimeout(resolve, 120));
    expect(told).toBe(1);
    stop();
  });

  it("reports when edits cannot be followed, and stays quiet about a sheet that is gone", async () => {
    const book = new StrictBook("Job");
    const excel = new StrictExcel(book);
    const reports: string[] = [];
    const workbook = new ExcelWorkbook(excel, (fault) => reports.push(fault.message));
    workbook.onEdit(() => undefined);
    await settle();
    const [handler] = excel.handlers.onChanged;
    await handler!({ worksheetId: "{9999}", address: "A1", triggerSource: "Unknown" });
    expect(reports).toEqual([]);
    excel.failure = { at: 1 };
    workbook.onEdit(() => undefined);
    await settle();
    expect(reports).toEqual([expect.stringMatching(/^Following the sheet: Excel refused/u)]);
  });
});
