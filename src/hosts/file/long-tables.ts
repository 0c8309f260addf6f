import { closeSync, openSync, writeSync } from "node:fs";
import { Zip, ZipDeflate } from "fflate";
import { cellName, rangeName } from "../../workbook/address";
import type { Step } from "../../workbook/port";
import { authorWorkbook } from "./author";
import type { BookModel } from "./book-model";
import { openPackage } from "./open-package";
import { escapeXml } from "./xml";

type Value = string | number;

/** A sheet that holds one table of any length, and a line below it where there is more to say. */
export interface LongTable {
  readonly sheet: string;
  readonly name: string;
  readonly columns: readonly string[];
  /** Characters, a column each. */
  readonly widths: readonly number[];
  readonly count: number;
  /** `count` rows, asked for once. */
  readonly rows: AsyncIterable<readonly Value[]> | Iterable<readonly Value[]>;
  readonly note?: string;
}

/** What a cell of the file format holds at most [characters]. */
const LONGEST_TEXT = 32_767;
/** Rows are packed in pieces of so many characters. */
const PIECE = 1 << 18;

/**
 * Writes a workbook file of which the last sheets are long tables: their rows go from where they come
 * from into the file, and are never held together.
 */
export async function writeWithTables(
  file: string,
  book: BookModel,
  tables: readonly LongTable[],
  about: { readonly title: string; readonly created: Date },
): Promise<void> {
  const before = book.sheets.length;
  for (const table of tables) book.apply(headOf(table));
  const parts = openPackage(await authorWorkbook(book, about), file);
  const handle = openSync(file, "w");
  try {
    const zip = new Zip((error, data) => {
      if (error) throw error;
      writeSync(handle, data);
    });
    for (const [name, bytes] of parts) {
      const part = new ZipDeflate(name, { level: 6 });
      part.mtime = about.created;
      zip.add(part);
      const place = /^xl\/worksheets\/sheet(\d+)\.xml$/u.exec(name)?.[1];
      const table = tables[Number(place ?? 0) - 1 - before];
      if (table) await putTable(part, Buffer.from(bytes).toString(), table);
      else part.push(bytes, true);
    }
    zip.end();
  } finally {
    closeSync(handle);
  }
}

/** The sheet but for its rows. A table without rows keeps a blank one, as the format asks. */
function headOf({ sheet, name, columns, widths, count, note }: LongTable): Step[] {
  const at = { sheet, row: 0, column: 0, rows: 1, columns: columns.length };
  const whole = { ...at, rows: rowsOf(count, note) };
  return [
    { do: "add sheet", sheet },
    { do: "write", at, values: [columns] },
    { do: "format", at, format: { bold: true, wrap: true } },
    { do: "freeze", sheet, rows: 1, columns: 0 },
    { do: "table", at: { ...at, rows: 1 + Math.max(1, count) }, name },
    ...widths.map((characters, column): Step => ({ do: "column width", sheet, column, characters })),
    { do: "print", at: whole, setup: { orientation: "landscape", fitWidthPages: 1, titleRows: 1 } },
  ];
}

/** Rows of the sheet: headers, table, and below a blank one the line that says more. */
function rowsOf(count: number, note: string | undefined): number {
  return 1 + count + (note === undefined ? 0 : 2);
}

async function putTable(part: ZipDeflate, xml: string, { columns, count, rows, note }: LongTable): Promise<void> {
  const end = xml.indexOf("</sheetData>");
  const whole = { row: 0, column: 0, rows: rowsOf(count, note), columns: columns.length };
  let text = xml.slice(0, end).replace(/<dimension ref="[^"]*"/u, `<dimension ref="${rangeName(whole)}"`);
  let row = 0;
  for await (const values of rows) {
    text += rowXml(++row, values);
    if (text.length < PIECE) continue;
    part.push(Buffer.from(text));
    text = "";
  }
  if (row !== count) throw new Error(`a table of ${count} rows came with ${row}`);
  if (note !== undefined) text += rowXml(count + 2, [note]);
  part.push(Buffer.from(text + xml.slice(end)), true);
}

function rowXml(row: number, values: readonly Value[]): string {
  const cells = values.map((value, column) => {
    if (value === "") return "";
    const at = cellName(row, column);
    return typeof value === "number"
      ? `<c r="${at}"><v>${value}</v></c>`
      : `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escapeXml(value.slice(0, LONGEST_TEXT))}</t></is></c>`;
  });
  return `<row r="${row + 1}">${cells.join("")}</row>`;
}
