import { AUDIT_NUMBERS, AUDIT_WIDTHS } from "./audit-columns";
import { isBlank } from "../core/cell";
import { AUDIT_COLUMNS } from "../core/fleet/audit-columns";
import { entryOf } from "../core/readings/catalogue";
import type { Meaning } from "./adopt-headers";
import type { Beside } from "./adopt-found";
import { planRemoval, typedOver } from "./adopt-removal";
import type { AdoptableTable } from "./adopt-table";
import { auditCall, routineSetting, routineShare } from "./audit-formula";
import { areaName, cellName, columnName, columnNumber, fixedRange, overlaps } from "./address";
import { guarded } from "./blank-guard";
import { entryById, unitOf } from "./input-cells";
import { PART_COLOURS } from "./look";
import { WorkbookFault, type Area, type CellWrite, type Step } from "./port";
import { ENGLISH, saidColours, widthForWords, type SheetLanguage } from "./sheet-language";

/** What each column holds as the user left it; a column that is missing is not read. */
export type Meanings = ReadonlyMap<number, Meaning>;

export interface ResultPlan {
  readonly kind: "spilled" | "row by row";
  /** Where the results will stand, headers included. */
  readonly at: Area;
  readonly steps: readonly Step[];
}

/** How an audit is asked for: in which language, and by what beside the table. */
interface Asked extends Beside {
  readonly language: SheetLanguage;
}

type ResultName = (typeof AUDIT_COLUMNS)[number];
/** Of one row alone there is no order among the machines. */
const BY_ROW: readonly ResultName[] = ["State", "Part", "Chance", "Next check", "Verdict"];
/** More formulas than this slow a workbook down: one for all rows then. */
export const MOST_ROW_FORMULAS = 2_000;

/** The meanings that were found, one column for each reading. */
export function foundMeanings(table: AdoptableTable): Meanings {
  return new Map(
    table.columns.flatMap(({ column, meaning, told }) => (meaning && told !== "doubled" ? [[column, meaning]] : [])),
  );
}

/** How the results are calculated: row by row inside a table, in one formula beside anything else. */
export function kindOf(table: AdoptableTable): ResultPlan["kind"] {
  return table.table && table.rows <= MOST_ROW_FORMULAS ? "row by row" : "spilled";
}

/**
 * The steps that put the results beside the table, or renew those that stand there. Nothing is moved;
 * a cell that holds something stops it.
 *
 * @param column - Letter of the first column for the results; the first free place at the right otherwise
 * @param language - What headers, names of columns and results are said in
 * @param beforehand - Share of machines that are in order before anything is read, where the visits are routine [1]
 * @throws WorkbookFault that names the cell in the way, or what is missing
 */
export function planResults(
  table: AdoptableTable,
  meanings: Meanings,
  column?: string,
  language: SheetLanguage = ENGLISH,
  beforehand?: number,
): ResultPlan {
  refuseUseless(meanings);
  const kind = kindOf(table);
  const names: readonly ResultName[] = kind === "row by row" ? BY_ROW : AUDIT_COLUMNS;
  const at = { ...placeOf(table, names.length, column), columns: names.length };
  refuseOccupied(table, at);
  const again = table.standing?.kind === kind && table.standing.column === at.column;
  const alike = again && table.standing?.language === language.code;
  const steps: Step[] = again ? [] : [...planRemoval(table)];
  const asked = { language, ...besideFor(table, beforehand) };
  const typed = again ? typedOver(table) : [];
  const isTyped = (row: number, column: number) => typed.some((cell) => cell.row === row && cell.column === column);
  const all = kind === "spilled" ? spilled(table, meanings, asked) : byRow(table, meanings, names, asked);
  const values = all.map((line, r) => line.map((cell, c) => (isTyped(at.row + r, at.column + c) ? undefined : cell)));
  steps.push({ do: "write", at: { ...at, rows: values.length }, values });
  if (!alike) steps.push(...dressing(table, at, names, kind, language));
  if (!table.standing && kind === "row by row" && at.column === tableEnd(table))
    steps.push({ do: "widen table", at: table.table!.at, name: table.table!.name, by: names.length });
  return { kind, at, steps };
}

/** What the formula goes by beside the table: what it was given before, and whether the visits are routine now. */
function besideFor({ standing }: AdoptableTable, beforehand: number | undefined): Beside {
  const { machines = "", knownGood = "", settings = "" } = standing?.beside ?? {};
  const others = routineShare(settings) === undefined ? settings : "";
  return { machines, knownGood, settings: beforehand === undefined ? others : routineSetting(beforehand) };
}

function refuseUseless(meanings: Meanings): void {
  const ids = [...meanings.values()].map(({ id }) => id);
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined)
    throw new WorkbookFault(
      `Two columns are matched to ${entryOf(twice)?.label ?? twice}. Leave one of them out.`,
      "occupied",
    );
  if (!ids.some((id) => entryOf(id)?.kind === "quantity"))
    throw new WorkbookFault("No column is matched to a reading yet. Match at least one and try again.", "missing");
}

const tableEnd = ({ table }: AdoptableTable) => (table ? table.at.column + table.at.columns : -1);

function placeOf(table: AdoptableTable, columns: number, wanted: string | undefined): Omit<Area, "columns"> {
  const place = (column: number) => ({
    sheet: table.sheet,
    row: table.headerRow,
    column,
    rows: table.firstRow + table.rows - table.headerRow,
  });
  if (wanted !== undefined && wanted.trim() !== "") {
    const letters = /^\s*([A-Z]{1,3})\s*$/iu.exec(wanted)?.[1];
    if (!letters || columnNumber(letters) + columns > 16_384)
      throw new WorkbookFault(`"${wanted}" is no column. Enter its letter, such as K.`, "unsupported");
    return place(columnNumber(letters));
  }
  if (table.standing?.kind === kindOf(table)) return place(table.standing.column);
  // In a table the results are columns of its own, right behind the last.
  if (kindOf(table) === "row by row") return place(tableEnd(table));
  // An empty column keeps the table a region of its own, to sort and to filter.
  let column = (table.table ? tableEnd(table) - 1 : Math.max(...table.columns.map((one) => one.column))) + 2;
  for (let tries = 0; tries < 200; tries++, column++) {
    if (!occupied(table, { ...place(column), columns })) break;
  }
  return place(column);
}

function refuseOccupied(table: AdoptableTable, at: Area): void {
  const own = table.columns.find(({ column }) => column >= at.column && column < at.column + at.columns);
  if (own)
    throw new WorkbookFault(
      `The results would cover the table's own column ${columnName(own.column)}. Choose a column at its right.`,
      "occupied",
    );
  const taken = occupied(table, at);
  if (taken)
    throw new WorkbookFault(
      `${taken.what} in the way: ${areaName(taken.at)}. Nothing was written; clear it or choose another column.`,
      taken.merged ? "merged" : "occupied",
    );
}

/** The first thing in the way of the results; what stands of their own does not count. */
function occupied(table: AdoptableTable, at: Area): { at: Area; what: string; merged: boolean } | undefined {
  const standing = table.standing;
  const ours = (column: number) =>
    standing !== undefined && column >= standing.column && column < standing.column + standing.columns;
  const merged = table.merged.find((one) => overlaps(one, at));
  if (merged) return { at: merged, what: "Merged cells are", merged: true };
  for (let row = at.row; row < at.row + at.rows; row++) {
    for (let column = at.column; column < at.column + at.columns; column++) {
      if (ours(column)) continue;
      const formula = table.cells.formulas[row]?.[column] ?? "";
      const value = table.cells.values[row]?.[column];
      if (formula === "" && (value === "" || value === undefined || value === null)) continue;
      const cell = { sheet: table.sheet, row, column, rows: 1, columns: 1 };
      const what = isBlank(value)
        ? "A formula is"
        : `"${String(typeof value === "object" ? formula : value).slice(0, 30)}" is`;
      return { at: cell, what, merged: false };
    }
  }
  return undefined;
}

/** Where the sheet's own headers say what every column holds, the formula reads them; else it names the columns. */
function ownHeaders(table: AdoptableTable, meanings: Meanings): Omit<Area, "sheet"> | undefined {
  const found = foundMeanings(table);
  const same =
    found.size === meanings.size &&
    table.firstRow === table.headerRow + 1 &&
    table.columns.every(({ column, told, meaning }) => {
      const now = meanings.get(column);
      if (told === "doubled") return now === undefined;
      return told !== "around" && told !== "before" && isSame(now, meaning);
    });
  const first = Math.min(...meanings.keys());
  const last = Math.max(...meanings.keys());
  const standing = table.standing;
  const through = standing !== undefined && standing.column > first && standing.column < last;
  if (!same || through) return undefined;
  return { row: table.headerRow, column: first, rows: table.rows + 1, columns: last - first + 1 };
}

function isSame(a: Meaning | undefined, b: Meaning | undefined): boolean {
  return a?.id === b?.id && a?.unit === b?.unit && a?.rpm === b?.rpm;
}

function named(meanings: Meanings, cells: (column: number) => string, asked: Asked): string {
  const columns = [...meanings.keys()].sort((a, b) => a - b);
  const names = columns.map((column) => {
    const { id, unit, rpm } = meanings.get(column)!;
    const entry = entryById(id);
    const [speed, shown] = [rpm === undefined ? "" : ` (${rpm} rpm)`, unit ?? unitOf(entry)];
    return `"${`${asked.language.say(entry.label)}${speed}${shown === "" ? "" : ` [${shown}]`}`.replaceAll('"', '""')}"`;
  });
  const parts = columns.map((column) => guarded(cells(column)));
  const block =
    parts.length === 1 ? parts[0]! : `CHOOSE({${columns.map((_, i) => i + 1).join(",")}},${parts.join(",")})`;
  return auditOf(block, `{${names.join(",")}}`, asked);
}

function spilled(table: AdoptableTable, meanings: Meanings, asked: Asked): CellWrite[][] {
  const own = ownHeaders(table, meanings);
  const columns = AUDIT_COLUMNS.length;
  // Down to the first row of results: all below is spilled.
  const lines: CellWrite[][] = Array.from({ length: table.firstRow - table.headerRow + 1 }, () =>
    AUDIT_COLUMNS.map(() => undefined),
  );
  const first = lines.at(-1)!;
  if (own) {
    lines[0]![0] = {
      formula: `=${auditOf(guarded(fixedRange(own)), "", asked)}`,
      spills: { rows: own.rows, columns },
    };
    // What an earlier adoption with named columns left there would be in the way.
    if (table.standing) for (let c = 1; c < columns; c++) lines[0]![c] = "";
    if (table.standing) first[0] = "";
    return lines;
  }
  lines[0] = AUDIT_COLUMNS.map(asked.language.say);
  const rows = { row: table.firstRow, rows: table.rows, columns: 1 };
  const formula = `=${named(meanings, (column) => fixedRange({ ...rows, column }), asked)}`;
  first[0] = { formula, spills: { rows: table.rows, columns } };
  return lines;
}

function byRow(table: AdoptableTable, meanings: Meanings, names: readonly ResultName[], asked: Asked): CellWrite[][] {
  const own = ownHeaders(table, meanings);
  const between = Array.from({ length: table.firstRow - table.headerRow - 1 }, () => names.map(() => undefined));
  const formulas = Array.from({ length: table.rows }, (_, i): CellWrite[] => {
    const row = table.firstRow + i;
    const fixed = (column: number) => `$${cellName(row, column)}`;
    const audit = own ? audited(own, fixed, asked) : named(meanings, fixed, asked);
    return names.map((name) => ({ formula: `=INDEX(${audit},${own ? 2 : 1},${AUDIT_COLUMNS.indexOf(name) + 1})` }));
  });
  return [names.map(asked.language.say), ...between, ...formulas];
}

/** The audit of one row, by header row and row one below the other. */
function audited(own: Omit<Area, "sheet">, fixed: (column: number) => string, asked: Asked): string {
  const row = guarded(`${fixed(own.column)}:${fixed(own.column + own.columns - 1)}`);
  return auditOf(`IF({1;0},${fixedRange({ ...own, rows: 1 })},${row})`, "", asked);
}

/**
 * The call of an audit, all of which is said in the language: these are columns to read.
 *
 * @param names - What the columns hold, as an array constant; blank where the table's own headers say it
 */
function auditOf(table: string, names: string, { language, ...basis }: Asked): string {
  return auditCall({ ...basis, table, names }, language, `${language.code} all`);
}

function dressing(
  table: AdoptableTable,
  at: Area,
  names: readonly ResultName[],
  kind: ResultPlan["kind"],
  language: SheetLanguage,
): Step[] {
  const wide = (name: ResultName) => Math.max(AUDIT_WIDTHS[name], widthForWords([name], language));
  const below = (i: number): Area => ({ ...at, row: at.row + 1, rows: at.rows - 1, column: at.column + i, columns: 1 });
  const steps: Step[] = names.flatMap((name, i): Step[] => [
    { do: "column width", sheet: at.sheet, column: at.column + i, characters: wide(name) },
    ...(AUDIT_NUMBERS[name] ? [{ do: "format", at: below(i), format: { number: AUDIT_NUMBERS[name] } } as const] : []),
    ...(name === "State"
      ? [{ do: "colour rule", at: below(i), rule: { words: saidColours(PART_COLOURS, language) } } as const]
      : []),
  ]);
  if (kind === "spilled" || !table.table)
    steps.push({ do: "format", at: { ...at, rows: 1 }, format: { bold: true, border: "bottom", vertical: "middle" } });
  return steps;
}
