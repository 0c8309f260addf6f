import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { BookModel } from "../../../src/hosts/file/book-model";
import { writeWithTables, type LongTable } from "../../../src/hosts/file/long-tables";
import { partText } from "../../../src/hosts/file/open-package";
import { readWorkbook } from "../../../src/hosts/file/read-workbook";

const folder = mkdtempSync(path.join(tmpdir(), "long-tables-"));
afterAll(() => rmSync(folder, { recursive: true }));

async function written(...tables: Partial<LongTable>[]) {
  const file = path.join(folder, "book.xlsx");
  const book = new BookModel();
  book.apply([{ do: "add sheet", sheet: "First" }]);
  const whole = tables.map((table, i) => ({
    sheet: `Table ${i}`,
    name: `Table_${i}`,
    columns: ["Name", "Number"],
    widths: [20, 8],
    count: 0,
    rows: [],
    ...table,
  }));
  await writeWithTables(file, book, whole, { title: "t", created: new Date(Date.UTC(2026, 0, 1)) });
  return readWorkbook(readFileSync(file), file);
}

describe("a workbook with long tables", () => {
  it("gives back what was written, text that looks like an error, a number or markup included", async () => {
    const rows = [
      ["Quad 1", 12.6],
      ["#N/A", -1e-9],
      ["007", 0],
      ["", 3],
      ['  <b> & "c" ', ""],
      ["bell\u0007", 1e21],
      ["=1+1", 5],
    ] as const;
    const book = await written({ count: rows.length, rows });
    const sheet = book.sheets[1]!;
    expect(sheet.name).toBe("Table 0");
    const read = rows.map((_, i) => [0, 1].map((c) => sheet.at(i + 1, c)?.value ?? ""));
    expect(read).toEqual(rows);
    expect(sheet.xml).not.toContain("<f>");
    expect(book.tables).toMatchObject([
      {
        name: "Table_0",
        columns: ["Name", "Number"],
        at: { sheet: "Table 0", row: 0, column: 0, rows: 8, columns: 2 },
      },
    ]);
  });

  it("says what is left out below the table, not in it", async () => {
    const book = await written({
      count: 2,
      rows: [
        ["a", 1],
        ["b", 2],
      ],
      note: "3 more",
    });
    expect(book.sheets[1]!.at(3, 0)).toBeUndefined();
    expect(book.sheets[1]!.at(4, 0)!.value).toBe("3 more");
    expect(book.tables[0]!.at.rows).toBe(3);
    expect(partText(book.parts, "xl/worksheets/sheet2.xml", "book")).toContain('<dimension ref="A1:B5"');
  });

  it("keeps the tables of several sheets apart, and a blank row in one without rows", async () => {
    const book = await written({ count: 1, rows: [["a", 1]] }, {});
    expect(book.sheets.map(({ rows }) => rows.length)).toEqual([0, 2, 1]);
    // A table consists of its header and at least one row (ECMA-376, part 1, 18.5.1.2).
    expect(book.tables.map(({ at }) => at.rows)).toEqual([2, 2]);
  });

  it("refuses to finish a file of which rows are missing", async () => {
    await expect(written({ count: 2, rows: [["a", 1]] })).rejects.toThrow("a table of 2 rows came with 1");
  });
});
