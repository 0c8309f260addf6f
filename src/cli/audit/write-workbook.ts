import { writeFileSync } from "node:fs";
import { authorWorkbook } from "../../hosts/file/author";
import { BookModel } from "../../hosts/file/book-model";
import { WorkbookFault, type Area, type CellWrite, type Step } from "../../workbook/port";
import {
  COMPLAINT_COLUMNS,
  complaintCells,
  complaintsOf,
  rankedRows,
  RESULT_COLUMNS,
  resultCells,
} from "./result-rows";
import { NOTICE_COLUMNS, TREND_COLUMNS, type HistoryCells } from "./history";
import type { PartFile } from "./part-file";
import type { Summary } from "./summary";
import { summarySheet } from "./summary-sheet";

/** More rows than this make a workbook that nobody can open in comfort. */
const MOST_ROWS = 200_000;

/** Results as a workbook: a summary page with charts, the results as a table to filter, what was not understood. */
export async function writeWorkbook(
  part: PartFile,
  output: string,
  summary: Summary,
  history: HistoryCells,
  created: Date,
): Promise<readonly string[]> {
  if (part.rows > MOST_ROWS) {
    throw new WorkbookFault(
      `${part.rows} rows are too many for a workbook (${MOST_ROWS} at most); write a .csv or .json instead.`,
      "unsupported",
    );
  }
  const results: CellWrite[][] = [[...RESULT_COLUMNS]];
  for await (const ranked of rankedRows(part)) {
    summary.add(ranked);
    results.push(resultCells(ranked.row));
  }
  const complaints: CellWrite[][] = [[...COMPLAINT_COLUMNS]];
  for await (const complaint of complaintsOf(part)) complaints.push(complaintCells(complaint));
  const book = new BookModel();
  book.apply([
    ...summarySheet(summary),
    ...tableSheet("Results", "AuditResults", results, [18, 7, 22, 12, 20, 15, 9, 28, 15, 8, 80]),
    ...(history.notices.length > 0
      ? tableSheet(
          "Noticed",
          "Noticed",
          [[...NOTICE_COLUMNS], ...history.notices.map((row) => [...row])],
          [24, 9, 24, 22, 18, 110],
        )
      : []),
    ...(history.trends.length > 0
      ? tableSheet(
          "Trends",
          "Trends",
          [[...TREND_COLUMNS], ...history.trends.map((row) => [...row])],
          [22, 20, 12, 8, 16, 14, 9, 9, 8, 16, 12, 12, 60],
        )
      : []),
    ...(complaints.length > 1 ? tableSheet("Not understood", "NotUnderstood", complaints, [24, 9, 28, 90]) : []),
  ]);
  writeFileSync(output, await authorWorkbook(book, { title: "Fleet audit", created }));
  return [output];
}

function tableSheet(sheet: string, name: string, cells: CellWrite[][], widths: readonly number[]): Step[] {
  const at: Area = { sheet, row: 0, column: 0, rows: cells.length, columns: cells[0]!.length };
  return [
    { do: "add sheet", sheet },
    { do: "write", at, values: cells },
    { do: "format", at: { ...at, rows: 1 }, format: { bold: true, wrap: true } },
    { do: "freeze", sheet, rows: 1, columns: 0 },
    { do: "table", at, name },
    ...widths.map((characters, column): Step => ({ do: "column width", sheet, column, characters })),
  ];
}
