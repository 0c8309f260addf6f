import { isBlank, type Block, type Cell } from "../core/cell";
import { jobsFromTable } from "../core/readings/from-cells";
import { matchLabel } from "../core/readings/match";
import type { Job } from "../core/readings/types";
import type { Step, Workbook } from "./port";
import { FIRST_ROWS, sheetTops } from "./sheet-tops";

/** One filled row of a list: a part, a visit. */
export interface ListRow {
  readonly row: number;
  readonly job: Job;
  /** Cells as they stand, by catalogue id; blanks left out. */
  readonly typed: ReadonlyMap<string, Cell>;
}

/** A list with one row for each thing, found by its header row. */
export interface ListSheet {
  readonly sheet: string;
  /** Column of each catalogue id. */
  readonly columns: ReadonlyMap<string, number>;
  /** Unit that a header names for the bare numbers below it. */
  readonly units: ReadonlyMap<string, string>;
  readonly rows: readonly ListRow[];
  /** First row below the header whose known columns are all blank. */
  readonly freeRow: number;
}

/** What tells a list of one kind from other sheets: the ids that its headers must, or may, name. */
export type ListKind = (ids: ReadonlySet<string>) => boolean;

const FEWEST_COLUMNS = 3;

/** Finds a list by its headers, whatever stands above them. */
export function locateList(sheet: string, values: Block, isKind: ListKind): ListSheet | undefined {
  for (let row = 0; row < Math.min(values.length, FIRST_ROWS); row++) {
    const header = withoutResults(values[row]!);
    const columns = headerColumns(header);
    if (columns.size >= FEWEST_COLUMNS && isKind(new Set(columns.keys())))
      return readList(sheet, values, row, header, columns);
  }
  return undefined;
}

/**
 * A header row without those of an audit's results beside the list: the order in which to bring machines in
 * would pass for the number of a job, and be written over with it.
 */
function withoutResults(header: readonly Cell[]): readonly Cell[] {
  const audited = header.some((cell) => cell === "Verdict" || cell === "Dictamen");
  return audited ? header.map((cell) => (cell === "Order" || cell === "Orden" ? "" : cell)) : header;
}

function headerColumns(line: readonly Cell[]): ReadonlyMap<string, number> {
  const columns = new Map<string, number>();
  line.forEach((cell, column) => {
    const match = typeof cell === "string" && !isBlank(cell) ? matchLabel(cell) : undefined;
    if (match && !columns.has(match.entry.id)) columns.set(match.entry.id, column);
  });
  return columns;
}

function readList(
  sheet: string,
  values: Block,
  headerRow: number,
  header: readonly Cell[],
  columns: ReadonlyMap<string, number>,
): ListSheet {
  const rows: ListRow[] = [];
  let freeRow: number | undefined;
  for (let row = headerRow + 1; row < values.length; row++) {
    const line = values[row]!;
    const typed = new Map(
      [...columns].flatMap(([id, column]) => (isBlank(line[column]) ? [] : [[id, line[column]] as const])),
    );
    if (typed.size === 0) {
      freeRow ??= row;
      continue;
    }
    rows.push({ row, job: jobsFromTable([header, line])[0]?.job ?? new Map(), typed });
  }
  const units = new Map(
    [...columns].flatMap(([id, column]) => {
      const unit = matchLabel(String(header[column]))?.unit;
      return unit === undefined ? [] : [[id, unit] as const];
    }),
  );
  return { sheet, columns, units, rows, freeRow: freeRow ?? Math.max(values.length, headerRow + 1) };
}

/**
 * The one write that adds a row, or fills one up; what the list has no column for is left out, other columns are
 * not touched.
 */
export function addRowStep(list: ListSheet, cells: ReadonlyMap<string, string | number>, row = list.freeRow): Step {
  const columns = [...list.columns].filter(([id]) => cells.has(id));
  const first = Math.min(...columns.map(([, column]) => column));
  const last = Math.max(...columns.map(([, column]) => column));
  const values: (string | number | undefined)[] = Array.from({ length: last - first + 1 }, () => undefined);
  for (const [id, column] of columns) values[column - first] = cells.get(id);
  return {
    do: "write",
    at: { sheet: list.sheet, row, column: first, rows: 1, columns: values.length },
    values: [values],
  };
}

/** The workbook's first list of a kind; `undefined` where no sheet has one. */
export async function findList(workbook: Workbook, isKind: ListKind): Promise<ListSheet | undefined> {
  for await (const { sheet, top, whole } of sheetTops(workbook, FEWEST_COLUMNS))
    if (locateList(sheet, top, isKind)) return locateList(sheet, await whole(), isKind);
  return undefined;
}

/** Names are compared without case, spaces and hyphens. */
export function plainName(text: string): string {
  return text.replaceAll(/[\s-]+/gu, "").toLowerCase();
}
