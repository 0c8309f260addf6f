import type { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { Step } from "../../../src/workbook/port";
import { area, open, write } from "./open-excel";
import type { StrictBook } from "./strict-book";

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
