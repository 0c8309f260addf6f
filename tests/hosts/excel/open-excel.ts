import { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { Area, CellWrite, Step } from "../../../src/workbook/port";
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

export function open(...sheets: string[]) {
  const book = new StrictBook(...(sheets.length > 0 ? sheets : ["Job"]));
  const excel = new StrictExcel(book);
  return { book, excel, workbook: new ExcelWorkbook(excel) };
}

export function area(sheet: string, row: number, column: number, rows = 1, columns = 1): Area {
  return { sheet, row, column, rows, columns };
}

export function write(sheet: string, row: number, column: number, values: CellWrite[][]): Step {
  return { do: "write", at: area(sheet, row, column, values.length, values[0]!.length), values };
}
