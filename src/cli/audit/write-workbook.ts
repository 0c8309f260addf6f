import { writeFileSync } from "node:fs";
import { authorWorkbook } from "../../hosts/file/author";
import { BookModel } from "../../hosts/file/book-model";
import { WorkbookFault, type Area, type CellWrite, type Step } from "../../workbook/port";
import {
  COMPLAINT_COLUMNS,
  complaintCells,
  complaintsOf,
  orderedRows,
  RESULT_COLUMNS,
  resultCells,
} from "./result-rows";
import { NOTICE_COLUMNS, TREND_COLUMNS, type HistoryCells } from "./history";
import type { PartFile } from "./part-file";
import { STATES, type Summary } from "./summary";

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
  for await (const row of orderedRows(part)) {
    summary.add(row);
    results.push(resultCells(row));
  }
  summary.finish();
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

function summarySheet(summary: Summary): Step[] {
  const sheet = "Summary";
  const at = (row: number, column: number, rows: number, columns: number): Area => ({
    sheet,
    row,
    column,
    rows,
    columns,
  });
  const states: CellWrite[][] = STATES.map((state) => [state, summary.counts.get(state) ?? 0]);
  const worst: CellWrite[][] = summary.worst.map((r) => [
    r.order,
    r.machine || `row ${r.row}`,
    r.part,
    r.state,
    r.days === null ? "" : Number(r.days.toFixed(1)),
    r.nextCheck,
  ]);
  const months: CellWrite[][] = summary.monthRows().map(([month, visits, share]) => [month, visits, share]);
  const steps: Step[] = [
    { do: "add sheet", sheet },
    { do: "write", at: at(0, 0, 1, 1), values: [["Fleet audit"]] },
    { do: "format", at: at(0, 0, 1, 1), format: { bold: true, size: 16 } },
    { do: "write", at: at(1, 0, 1, 1), values: [[`${summary.rows} rows`]] },
    { do: "write", at: at(3, 0, 1, 2), values: [["State", "Machines"]] },
    { do: "format", at: at(3, 0, 1, 2), format: { bold: true, border: "bottom" } },
    { do: "write", at: at(4, 0, states.length, 2), values: states },
    {
      do: "chart",
      sheet,
      chart: {
        title: "States",
        kind: "column",
        series: [{ name: "Machines", x: at(4, 0, states.length, 1), y: at(4, 1, states.length, 1) }],
        xTitle: "State",
        yTitle: "Machines",
        anchor: { row: 2, column: 8, rows: 15, columns: 7 },
      },
    },
    {
      do: "write",
      at: at(11, 0, 1, 6),
      values: [["Order", "Machine", "Part", "State", "Days until flat", "Next check"]],
    },
    { do: "format", at: at(11, 0, 1, 6), format: { bold: true, border: "bottom" } },
    ...[16, 24, 22, 15, 15, 32].map((characters, column): Step => ({ do: "column width", sheet, column, characters })),
  ];
  if (worst.length > 0) steps.push({ do: "write", at: at(12, 0, worst.length, 6), values: worst });
  if (months.length > 1) {
    const top = 14 + worst.length;
    steps.push(
      { do: "write", at: at(top, 0, 1, 3), values: [["Month", "Visits", "Faulty or suspect"]] },
      { do: "format", at: at(top, 0, 1, 3), format: { bold: true, border: "bottom" } },
      { do: "write", at: at(top + 1, 0, months.length, 3), values: months },
      { do: "format", at: at(top + 1, 2, months.length, 1), format: { number: "0 %" } },
      {
        do: "chart",
        sheet,
        chart: {
          title: "Faulty or suspect, by month",
          kind: "line",
          series: [{ name: "Share", x: at(top + 1, 0, months.length, 1), y: at(top + 1, 2, months.length, 1) }],
          xTitle: "Month",
          yTitle: "Share of visits",
          anchor: { row: 18, column: 8, rows: 15, columns: 7 },
        },
      },
    );
  }
  return steps;
}
