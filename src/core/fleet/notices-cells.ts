import { isBlank, type Block, type Cell } from "../cell";
import { textIn } from "../readings/catalogue";
import { eachJobOfTable } from "../readings/from-cells";
import { andThen, ok, type Result } from "../result";
import { FleetHistoryReader } from "./history/fleet-history";
import { issueWords, LEFT_OUT } from "./issue-words";
import { namedTable, type NamedTable } from "./named-table";
import { dateOrderOf, leftOutAs } from "./table-shape";

const COLUMNS = ["Row", "Column", "Machine", "Recognised", "What"] as const;
type Line = readonly [row: number, column: string, machine: string, recognised: string, what: string];

/**
 * Everything that must be said of a fleet's table by row and column, as cells below a header row:
 * cells and columns that were not understood, and what its rows show together as a history.
 *
 * @param names - As in the audit of the same table
 * @returns Rows count from the first row of the table, which is 1; what is said of names apart has none
 */
export function noticesCells(table: Block, names: Block = []): Result<Cell[][]> {
  if (table.every((row) => row.every(isBlank))) return ok([[""]]);
  return andThen(namedTable(table, names), (parts) => {
    const lines = [...notUnderstood(parts), ...historyOf(parts)];
    const place = new Map(parts.header.map((cell, i) => [labelOf(cell), i]));
    // Lines of one cell stay as they came.
    lines.sort(([a, left], [b, right]) => a - b || (place.get(left) ?? -1) - (place.get(right) ?? -1));
    return ok([[...COLUMNS], ...lines.map(([row, ...rest]) => [row === 0 ? "" : row, ...rest])]);
  });
}

function* notUnderstood({ header, rows, named }: NamedTable): Generator<Line> {
  const first = named ? 0 : 1;
  let opening = true;
  for (const { row, job, issues } of eachJobOfTable([
    header,
    ...rows.map((cells) => (leftOutAs(cells, header) ? [] : cells)),
  ])) {
    for (const issue of issues) {
      const column = labelOf(header[issue.column]!);
      if (issue.kind === "fault")
        yield [row + first, column, textIn(job, "machine-name") ?? "", "not understood", issueWords(issue)];
      // What is said of the headers comes with every row.
      else if (opening) yield [first, column, "", "column not used", issueWords(issue)];
    }
    opening = false;
  }
  for (const [i, cells] of rows.entries()) {
    const kind = leftOutAs(cells, header);
    if (kind) yield [i + 1 + first, "", "", kind, LEFT_OUT[kind]];
  }
}

function historyOf({ header, rows, named }: NamedTable): Line[] {
  const lines: Line[] = [];
  const reader = new FleetHistoryReader();
  reader.table(header, "", dateOrderOf(header, rows));
  rows.forEach((cells, i) => {
    if (!leftOutAs(cells, header)) reader.row(cells, i + (named ? 1 : 2));
  });
  reader.finish(
    ({ row, column, machine, kind, what }) => lines.push([row, column, machine, kind, what]),
    () => undefined,
  );
  return lines;
}

function labelOf(header: Cell): string {
  return isBlank(header) || typeof header === "object" ? "" : String(header).trim();
}
