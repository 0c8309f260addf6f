import type { IRange, Workbook, Worksheet } from "@univerjs/core";
import { overlaps } from "../../workbook/address";
import { WorkbookFault, type Area } from "../../workbook/port";

/** Between the areas of the port and the ranges of the grid. */
export function rangeOf(at: Omit<Area, "sheet">): IRange {
  return {
    startRow: at.row,
    endRow: at.row + at.rows - 1,
    startColumn: at.column,
    endColumn: at.column + at.columns - 1,
  };
}

export function areaOf(sheet: string, { startRow, endRow, startColumn, endColumn }: IRange): Area {
  return {
    sheet,
    row: startRow,
    column: startColumn,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  };
}

export function sheetNamed(workbook: Workbook, name: string): Worksheet {
  const sheet =
    workbook.getSheetBySheetName(name) ??
    workbook.getSheets().find((one) => one.getName().toUpperCase() === name.toUpperCase());
  if (!sheet) throw new WorkbookFault(`There is no sheet "${name}" in this workbook.`, "missing");
  return sheet;
}

export function mergesIn(sheet: Worksheet, at: Omit<Area, "sheet">): Area[] {
  return sheet
    .getMergeData()
    .map((range) => areaOf(sheet.getName(), range))
    .filter((area) => overlaps(area, at));
}
