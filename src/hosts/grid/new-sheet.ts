import { VerticalAlign, type IWorksheetData } from "@univerjs/core";

/** An empty sheet of the grid: it grows with what is written, and its rows leave room to breathe. */
export const NEW_SHEET: Partial<IWorksheetData> = {
  rowCount: 200,
  columnCount: 26,
  defaultRowHeight: 23,
  defaultStyle: { ff: "Arial", fs: 10, vt: VerticalAlign.MIDDLE, pd: { t: 1, r: 4, b: 2, l: 4 } },
};
