import { auditTable, type AuditOptions } from "../../core/fleet/audit";
import { issueWords, LEFT_OUT } from "../../core/fleet/issue-words";
import { rowAnswer, type RowAnswer } from "../../core/fleet/row-answer";
import { columnName } from "../../workbook/address";
import { leftOutAs } from "../../core/fleet/table-shape";
import { matchLabel } from "../../core/readings/match";
import { isBlank, type Cell } from "../../core/cell";
import type { TableChunk } from "../../hosts/table/table-chunk";
import { swallowedRows } from "./swallowed-rows";

/** One row's result, as the part file keeps it. */
export interface RowResult extends RowAnswer {
  readonly file: string;
  /** As a spreadsheet shows it, from 1. */
  readonly row: number;
}

/** What was not understood, by row and column. */
export interface Complaint {
  readonly file: string;
  readonly row: number;
  readonly column: string;
  readonly what: string;
}

export interface ChunkResult {
  readonly rows: readonly RowResult[];
  readonly complaints: readonly Complaint[];
}

/** Audits some rows of a table: the same for one worker or many. */
export function auditChunk(
  { file, header, rows, firstRow, opens, dateOrder, notRead = [] }: TableChunk,
  options: AuditOptions,
): ChunkResult {
  const ofFile = notRead.map(sheetNotRead);
  if (opens && !header.some((cell) => matchLabel(String(cell ?? ""))?.entry.id === "machine-name"))
    ofFile.push(NAMELESS);
  const complaints: Complaint[] = ofFile.map((what) => ({ file, row: 0, column: "", what }));
  const machines: (readonly Cell[])[] = rows.map((row, i) => {
    const kind = leftOutAs(row, header);
    if (!kind) return row;
    complaints.push({ file, row: firstRow + i, column: "", what: LEFT_OUT[kind] });
    return [];
  });
  if (opens) complaints.push(...withoutHeader(file, header, machines));
  rows.forEach((row, i) =>
    row.forEach((cell, column) => {
      const count = swallowedRows(cell, header.length);
      if (count === 0) return;
      const what = `${count} ${count === 1 ? "row" : "rows"} of the file stand in this one cell, after a quote that is not closed; close it and audit again`;
      complaints.push({ file, row: firstRow + i, column: String(header[column] ?? "").trim(), what });
    }),
  );
  const audit = auditTable([header, ...machines], options);
  for (const issue of audit.issues) {
    const ofHeader = issue.kind !== "fault";
    // A header is complained of once, with the first rows of its table.
    if (ofHeader && !opens) continue;
    complaints.push({
      file,
      row: ofHeader ? 0 : firstRow + issue.row - 1,
      column: String(header[issue.column]).trim(),
      what: issueWords(issue),
    });
  }
  return {
    rows: audit.rows.map((one) => ({ file, row: firstRow + one.row - 1, ...rowAnswer(one, dateOrder) })),
    complaints,
  };
}

/** Columns with something in them below a blank header: whoever typed there meant it to count. */
function withoutHeader(file: string, header: readonly Cell[], rows: readonly (readonly Cell[])[]): Complaint[] {
  const columns = Array.from({ length: Math.max(header.length, ...rows.map((row) => row.length)) }, (_, i) => i);
  return columns
    .filter((i) => isBlank(header[i]) && rows.some((row) => !isBlank(row[i])))
    .map((i) => ({
      file,
      row: 0,
      column: `column ${columnName(i)}`,
      what: "a column without a header; it was not used",
    }));
}

const NAMELESS =
  'no column says which machine a row is, so each counts as one of its own, without a history; call the column "Machine"';

function sheetNotRead(sheet: string): string {
  return `the sheet "${sheet}" was not read: one sheet of a file counts, the longest with machines and readings; save this one as a file of its own where its machines belong to the fleet`;
}
