import type { ICellData, IWorkbookData, IWorksheetData } from "@univerjs/core";
import { FormulaDataModel, ISuperTableService } from "@univerjs/engine-formula";
import type { Cell } from "../../core/cell";
import { inlineNames } from "./inline-names";
import { freshUnit } from "./fresh-unit";
import { openHeadless } from "./headless";
import { CellReader } from "./read-cells";
import { storedValue } from "./stored-value";

/** A workbook to be calculated, as it stands in a file or as a template builds it. */
export interface Book {
  readonly sheets: readonly BookSheet[];
  readonly names?: readonly BookName[];
  readonly tables?: readonly BookTable[];
}

export interface BookSheet {
  readonly name: string;
  /** Filled cells only. A cell that a formula will spill into must not be among them. */
  readonly cells: Iterable<BookCell>;
}

export interface BookCell {
  readonly row: number;
  readonly column: number;
  /** A formula, with its leading `=`, or a value. */
  readonly content: { readonly formula: string } | { readonly value: string | number | boolean };
}

export interface BookName {
  readonly name: string;
  /** What it stands for, without a leading `=`: `Reference!$A$2:$B$9`, or a formula. */
  readonly refersTo: string;
  /** The sheet it is local to; without it, it holds for the workbook. */
  readonly sheet?: string;
}

export interface BookTable {
  readonly name: string;
  readonly sheet: string;
  /** The header row included. */
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly headers: readonly string[];
}

/** A calculated workbook; addresses are zero-based. */
export interface CalculatedBook {
  /** The value of a cell, spilled ones included; `""` where it is blank. */
  value(sheet: string, row: number, column: number): Cell;
  /** How many rows and columns the formula in a cell fills. */
  spill(sheet: string, row: number, column: number): { readonly rows: number; readonly columns: number };
}

/** Calculates every formula of a workbook from its values alone. */
export async function calculateBook(book: Book): Promise<CalculatedBook> {
  const unit = freshUnit();
  const engine = openHeadless(workbookData(book, unit));
  try {
    const tables = engine.injector.get(ISuperTableService);
    for (const table of book.tables ?? []) tables.registerTable(unit, table.name, superTable(table));
    await engine.calculate();

    const workbook = engine.book;
    const formulas = engine.injector.get(FormulaDataModel);
    const readers = new Map(
      book.sheets.map(({ name }) => [
        name,
        new CellReader(workbook, workbook.getSheetBySheetId(sheetId(name))!, formulas),
      ]),
    );
    return {
      value: (sheet, row, column) => readers.get(sheet)?.value(row, column) ?? "",
      spill: (sheet, row, column) => {
        const area = readers.get(sheet)?.spill(row, column);
        if (!area) return { rows: 1, columns: 1 };
        return { rows: area.endRow - area.startRow + 1, columns: area.endColumn - area.startColumn + 1 };
      },
    };
  } finally {
    engine.close();
  }
}

/** Ids of the engine's own must not meet a sheet that happens to be named alike. */
const sheetId = (name: string) => `sheet:${name}`;
/** Room for results that spill below and beside what is filled. */
const ROOM = { rows: 2000, columns: 100 };

function workbookData(book: Book, unit: string): IWorkbookData {
  const sheets = Object.fromEntries(
    book.sheets.map((sheet) => [sheetId(sheet.name), worksheetData(sheet, book.names ?? [])]),
  );
  return {
    id: unit,
    name: unit,
    appVersion: "",
    locale: "enUS" as IWorkbookData["locale"],
    styles: {},
    sheetOrder: book.sheets.map((sheet) => sheetId(sheet.name)),
    sheets,
  };
}

function worksheetData(sheet: BookSheet, names: readonly BookName[]): Partial<IWorksheetData> {
  // A name of the sheet's own comes before the workbook's name of the same spelling.
  const meanings = new Map(
    [...names.filter((name) => name.sheet === undefined), ...names.filter((name) => name.sheet === sheet.name)].map(
      ({ name, refersTo }) => [name.toUpperCase(), refersTo],
    ),
  );
  const cellData: Record<number, Record<number, ICellData>> = {};
  let [rows, columns] = [0, 0];
  for (const { row, column, content } of sheet.cells) {
    (cellData[row] ??= {})[column] =
      "formula" in content
        ? { f: inlineNames(content.formula, (name) => meanings.get(name)) }
        : storedValue(content.value);
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
  }
  return {
    id: sheetId(sheet.name),
    name: sheet.name,
    rowCount: rows + ROOM.rows,
    columnCount: columns + ROOM.columns,
    cellData,
  };
}

function superTable({ sheet, row, column, rows, headers }: BookTable) {
  return {
    sheetId: sheetId(sheet),
    titleMap: new Map(headers.map((header, at) => [header, column + at])),
    range: { startRow: row, endRow: row + rows - 1, startColumn: column, endColumn: column + headers.length - 1 },
  };
}
