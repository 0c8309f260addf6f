import path from "node:path";
import { BookModel } from "../../hosts/file/book-model";
import { writeWithTables, type LongTable } from "../../hosts/file/long-tables";
import { NOTICE_COLUMNS, TREND_COLUMNS, type Cells, type History } from "./history";
import type { PartFile } from "./part-file";
import { COMPLAINT_COLUMNS, complaintRows, rankedRows, RESULT_COLUMNS, resultCells } from "./result-rows";
import { summarySheet } from "./summary-sheet";
import type { Summary } from "./summary";
import { beside, writeBeside } from "./text-file";

/** Name of the table in it that holds the results. */
export const RESULTS_TABLE = "AuditResults";
/** More rows than this make a workbook that nobody can open in comfort. */
export const MOST_ROWS = 200_000;
/** What was noticed or not understood is listed up to here, and whole in a text table beside the workbook. */
export const MOST_LISTED = 10_000;

/**
 * Results as a workbook: a summary page with charts, the results as a table to filter, what was not understood.
 *
 * @param basis - What the machines were taken for before anything was read
 */
export async function writeWorkbook(
  part: PartFile,
  output: string,
  summary: Summary,
  history: History,
  basis: string,
  created: Date,
): Promise<readonly string[]> {
  for await (const ranked of rankedRows(part)) summary.add(ranked);
  const complaints = new Listing(output, "not-understood", "cells and columns were not understood", part.complaints);
  const notices = new Listing(output, "noticed", "things were noticed in the history", history.noticeCount);
  const book = new BookModel();
  book.apply(
    summarySheet(
      summary,
      [basis, ...history.ofFleet, complaints.line(), notices.line()].filter((line) => line !== ""),
    ),
  );
  const tables: LongTable[] = [
    {
      sheet: "Results",
      name: RESULTS_TABLE,
      columns: RESULT_COLUMNS,
      widths: [18, 7, 22, 12, 20, 15, 9, 28, 15, 8, 80],
      count: part.rows,
      rows: resultRows(part),
    },
    {
      sheet: "Noticed",
      name: "Noticed",
      columns: NOTICE_COLUMNS,
      widths: [24, 9, 24, 22, 18, 110],
      ...notices.sheet(history.notices()),
    },
    {
      sheet: "Trends",
      name: "Trends",
      columns: TREND_COLUMNS,
      widths: [22, 20, 12, 8, 16, 14, 9, 9, 8, 16, 12, 12, 60],
      count: history.trendCount,
      rows: history.trends(),
    },
    {
      sheet: "Not understood",
      name: "NotUnderstood",
      columns: COMPLAINT_COLUMNS,
      widths: [24, 9, 28, 90],
      ...complaints.sheet(complaintRows(part)),
    },
  ];
  const shown = tables.filter(({ sheet, count }) => sheet === "Results" || count > 0);
  await writeWithTables(output, book, shown, { title: "Fleet audit", created });
  return [
    output,
    ...(await complaints.writeRest(COMPLAINT_COLUMNS, complaintRows(part))),
    ...(await notices.writeRest(NOTICE_COLUMNS, history.notices())),
  ];
}

async function* resultRows(part: PartFile): AsyncGenerator<Cells> {
  for await (const { row } of rankedRows(part)) yield resultCells(row);
}

type Rows = AsyncIterable<Cells> | Iterable<Cells>;

/** What a sheet lists in part where there is too much of it, and where all of it is. */
class Listing {
  private readonly rest: number;

  constructor(
    private readonly output: string,
    private readonly name: "not-understood" | "noticed",
    private readonly what: string,
    private readonly count: number,
  ) {
    this.rest = Math.max(0, count - MOST_LISTED);
  }

  /** For the summary; blank where the sheet says it all. */
  line(): string {
    return this.rest === 0
      ? ""
      : `${this.count} ${this.what}: the first ${MOST_LISTED} are listed here, all of them in ${this.file()}.`;
  }

  sheet(rows: Rows): Pick<LongTable, "count" | "rows" | "note"> {
    const count = this.count - this.rest;
    return this.rest === 0
      ? { count, rows }
      : { count, rows: firstOf(rows, count), note: `${this.rest} more; all ${this.count} are in ${this.file()}.` };
  }

  async writeRest(columns: readonly string[], rows: Rows): Promise<readonly string[]> {
    return this.rest === 0 ? [] : writeBeside(this.output, this.name, this.count, columns, rows);
  }

  private file(): string {
    return path.basename(beside(this.output, this.name));
  }
}

async function* firstOf(rows: Rows, count: number): AsyncGenerator<Cells> {
  let given = 0;
  for await (const row of rows) {
    if (given++ >= count) return;
    yield row;
  }
}
