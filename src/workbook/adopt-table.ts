import { isBlank, type Block, type Cell } from "../core/cell";
import { isTotalsRow } from "../core/fleet/table-shape";
import { entryOf } from "../core/readings/catalogue";
import { parseEntry } from "../core/readings/parse";
import { fail, faultMessage, ok, type Result } from "../core/result";
import {
  bestHeaderRow,
  countRows,
  headerRowAbove,
  isUnitsRow,
  readHeaders,
  withUnits,
  type HeaderColumn,
  type Meaning,
} from "./adopt-headers";
import { findResults, type StandingResults } from "./adopt-found";
import { areaName, cellName } from "./address";
import { isDay } from "./input-cells";
import type { Area, TableArea, Workbook } from "./port";
import { dayOf } from "./visits-sheet";

/** A table of the user's own, as the pane shows it before anything is written. */
export interface AdoptableTable {
  readonly sheet: string;
  readonly headerRow: number;
  /** First row of machines; a row of units may stand between it and the headers. */
  readonly firstRow: number;
  readonly rows: number;
  readonly columns: readonly HeaderColumn[];
  /** Columns with known headers in the same row that an empty column parts from these. */
  readonly apart: readonly number[];
  /** The host's own table that it is, if it is one. */
  readonly table?: TableArea;
  /** Results that were put beside it before. */
  readonly standing?: StandingResults;
  /** The sheet's cells from A1: what may not be overwritten. */
  readonly cells: { readonly values: Block; readonly formulas: readonly (readonly string[])[] };
  readonly merged: readonly Area[];
}

const MOST_COLUMNS = 300;

/**
 * Looks at the table that the user points at: a cell in it, its header row, the whole of it, or an
 * empty cell of the sheet, which means the sheet's best table.
 *
 * @returns The table with what its columns hold; a fault that says what to select instead
 */
export async function lookAtTable(workbook: Workbook, at: Area): Promise<Result<AdoptableTable>> {
  const used = await workbook.usedArea(at.sheet);
  const area = { ...used, columns: Math.min(used.columns, MOST_COLUMNS) };
  if (area.rows === 0) return nothingFound(at.sheet);
  const { values, formulas } = await workbook.read(area);
  const tables = await workbook.tablesIn(at);
  const standing = findResults(formulas, values);
  const table = tables.find((one) => one.at.rows > 1);
  const pointed = table ? undefined : pointedAt(at, area);
  const headerRow = table?.at.row ?? headerRowOf(values, at, pointed, standing);
  if (headerRow === undefined) return nothingFound(at.sheet);
  const own = table ? range(table.at.column, table.at.columns) : columnsOf(values, headerRow, at, pointed, standing);
  const headers = readHeaders(
    values,
    headerRow,
    own.filter((column) => !standing.some((one) => holds(one, column))),
  );
  if (headers.length === 0) return nothingFound(at.sheet);
  const units = isUnitsRow(values, headerRow + 1, headers);
  const firstRow = headerRow + (units ? 2 : 1);
  const its = standing.find((one) => one.row === headerRow);
  const columns = saidBefore(units ? withUnits(values, headerRow + 1, headers) : headers, its?.meanings);
  const rows = table
    ? table.at.row + table.at.rows - (table.totals ? 1 : 0) - firstRow
    : rowsMeant(values, firstRow, columns, its?.readsTo ?? 0);
  if (rows < 1) {
    return fail({
      code: "missing",
      what: `A row of readings under ${areaName({ sheet: at.sheet, row: headerRow, column: columns[0]!.column, rows: 1, columns: 1 })}`,
      expected: "readings below the headers, or select another header row",
    });
  }
  const merged = await workbook.mergedIn({ ...area, columns: area.columns + 20, rows: area.rows + 1 });
  return ok({
    sheet: area.sheet,
    headerRow,
    firstRow,
    rows,
    columns,
    apart: table || pointed ? [] : partedFrom(values, formulas, headerRow, own, standing),
    ...(table ? { table } : {}),
    ...(its ? { standing: its } : {}),
    cells: { values, formulas },
    merged,
  });
}

/** What the user said the columns hold goes before what their headers say. */
function saidBefore(columns: readonly HeaderColumn[], said: StandingResults["meanings"]): readonly HeaderColumn[] {
  if (!said) return columns;
  return columns.map((one): HeaderColumn => {
    const meaning = said.get(one.column);
    if (one.told !== "doubled" && sameMeaning(meaning, one.meaning)) return one;
    return { column: one.column, header: one.header, told: "before", ...(meaning ? { meaning } : {}) };
  });
}

function sameMeaning(a: Meaning | undefined, b: Meaning | undefined): boolean {
  const unit = (one: Meaning) => {
    const entry = entryOf(one.id);
    return one.unit ?? (entry?.kind === "quantity" ? entry.unit : undefined);
  };
  return a === undefined || b === undefined ? a === b : a.id === b.id && a.rpm === b.rpm && unit(a) === unit(b);
}

function nothingFound<T>(sheet: string): Result<T> {
  return fail({
    code: "refused",
    what: `The sheet "${sheet}"`,
    why: "no row with headers such as Machine and Rested voltage was found",
    instead: "select the header row of the table from its first to its last column",
  });
}

const range = (first: number, count: number) => Array.from({ length: count }, (_, i) => first + i);
const holds = (one: StandingResults, column: number) => column >= one.column && column < one.column + one.columns;

/** Rows with readings, and those blank below them that standing results were meant to read all the same. */
function rowsMeant(values: Block, firstRow: number, columns: readonly HeaderColumn[], readsTo: number): number {
  const rows = countRows(values, firstRow, columns);
  const behind = values.slice(firstRow + rows, readsTo);
  const isFree = behind.every((row) => columns.every(({ column }) => isBlank(row[column])));
  return isFree ? Math.max(rows, readsTo - firstRow) : rows;
}

/** The part of the sheet that a selection of several columns names. */
function pointedAt(at: Area, used: Area): Area | undefined {
  if (at.columns < 2) return undefined;
  const columns = Math.min(at.column + at.columns, used.columns) - at.column;
  const rows = Math.min(at.row + at.rows, used.rows) - at.row;
  return columns < 2 || rows < 1 ? undefined : { ...at, columns, rows };
}

function headerRowOf(
  values: Block,
  at: Area,
  pointed: Area | undefined,
  standing: readonly StandingResults[],
): number | undefined {
  const width = Math.max(0, ...values.map((row) => row.length));
  const all = range(0, width).filter((column) => !standing.some((one) => holds(one, column)));
  if (!pointed) return headerRowAbove(values, at.row, all) ?? bestHeaderRow(values, 0, all);
  // A single row of several cells is a header row because the user says so.
  if (pointed.rows === 1) return pointed.row;
  return (
    bestHeaderRow(values.slice(0, pointed.row + pointed.rows), pointed.row, range(pointed.column, pointed.columns)) ??
    pointed.row
  );
}

/** Columns that hang together around the headers; an empty column ends a table, our own results do not. */
function columnsOf(
  values: Block,
  headerRow: number,
  at: Area,
  pointed: Area | undefined,
  standing: readonly StandingResults[],
): readonly number[] {
  if (pointed) return range(pointed.column, pointed.columns);
  const width = Math.max(0, ...values.slice(headerRow, headerRow + 50).map((row) => row.length));
  const filled = (column: number) => values.slice(headerRow, headerRow + 50).some((row) => !isBlank(row[column]));
  const passes = (column: number) =>
    filled(column) ||
    standing.some((one) => one.row === headerRow && (holds(one, column) || column === one.column - 1));
  const inside = (column: number) => column >= 0 && column < width && passes(column);
  const header = (column: number) => !isBlank(values[headerRow]?.[column]);
  let first = inside(at.column) ? at.column : range(0, width).find(header);
  if (first === undefined) return [];
  let last = first;
  while (inside(first - 1)) first--;
  while (inside(last + 1)) last++;
  return range(first, last - first + 1).filter(filled);
}

/** Headers beyond an empty column that are known, and stand over something typed: a column of formulas shows results. */
function partedFrom(
  values: Block,
  formulas: readonly (readonly string[])[],
  headerRow: number,
  own: readonly number[],
  standing: readonly StandingResults[],
): readonly number[] {
  const typed = (column: number) =>
    range(headerRow + 1, 50).some((row) => !isBlank(values[row]?.[column]) && !formulas[row]?.[column]);
  const others = range(0, values[headerRow]?.length ?? 0).filter(
    (column) => !own.includes(column) && !standing.some((one) => holds(one, column)) && typed(column),
  );
  return readHeaders(values, headerRow, others).flatMap(({ column, told }) => (told === "nothing" ? [] : [column]));
}

/** Rows of a table that hold a machine: neither blank nor totals between them. */
export function machineRows({ columns, firstRow, rows, cells }: AdoptableTable): number {
  const lines = cells.values.slice(firstRow, firstRow + rows).map((row) => columns.map(({ column }) => row[column]));
  return lines.filter((line) => !line.every(isBlank) && !isTotalsRow(line)).length;
}

/** What a column's cells look like under a meaning, for the user to judge whether it is the right one. */
export interface ColumnSample {
  /** The first cells that are filled, as they stand. */
  readonly shown: readonly string[];
  readonly filled: number;
  readonly unreadable: number;
  /** The first one that cannot be read: where, and the sentence. */
  readonly first?: { readonly cell: string; readonly why: string };
}

const SAMPLED_ROWS = 500;

export function sampleOf(table: AdoptableTable, column: number, meaning: Meaning | undefined): ColumnSample {
  const entry = meaning && entryOf(meaning.id);
  const shown: string[] = [];
  let [filled, unreadable] = [0, 0];
  let first: ColumnSample["first"];
  for (let i = 0; i < Math.min(table.rows, SAMPLED_ROWS); i++) {
    const row = table.firstRow + i;
    const cell: Cell = table.cells.values[row]?.[column];
    if (isBlank(cell)) continue;
    filled++;
    const text = typeof cell === "object" && cell !== null ? cell.error : String(cell);
    if (shown.length < 3) shown.push(entry && isDay(entry) ? dayOf(cell) : text);
    if (!entry) continue;
    const read =
      typeof cell === "number" && meaning.unit ? parseEntry(`${cell} ${meaning.unit}`, entry) : parseEntry(cell, entry);
    const plain = read.ok ? read : parseEntry(cell, entry);
    if (plain.ok) continue;
    unreadable++;
    first ??= { cell: cellName(row, column), why: faultMessage(plain.fault) };
  }
  return { shown, filled, unreadable, ...(first ? { first } : {}) };
}
