import type { Area } from "./port";

/** Cell addresses as formulas write them; rows and columns are zero-based everywhere else. */

export function columnName(column: number): string {
  let name = "";
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26)) {
    name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  }
  return name;
}

export function columnNumber(name: string): number {
  let n = 0;
  for (const letter of name.toUpperCase()) n = n * 26 + letter.charCodeAt(0) - 64;
  return n - 1;
}

export function cellName(row: number, column: number): string {
  return `${columnName(column)}${row + 1}`;
}

/** `$B$5`: the same cell wherever the formula stands. */
export function fixedCell(row: number, column: number): string {
  return `$${columnName(column)}$${row + 1}`;
}

type Rectangle = Omit<Area, "sheet">;

export function rangeName({ row, column, rows, columns }: Rectangle): string {
  const first = cellName(row, column);
  return rows === 1 && columns === 1 ? first : `${first}:${cellName(row + rows - 1, column + columns - 1)}`;
}

export function fixedRange({ row, column, rows, columns }: Rectangle): string {
  return `${fixedCell(row, column)}:${fixedCell(row + rows - 1, column + columns - 1)}`;
}

/** A sheet's name as a formula needs it before the address: quoted unless it is a plain word. */
export function sheetPrefix(sheet: string): string {
  const plainWord =
    /^[\p{L}_][\p{L}\p{N}_]*$/u.test(sheet) && !/^[a-z]{1,3}\d+$/iu.test(sheet) && !/^r\d*c\d*$/iu.test(sheet);
  return plainWord ? `${sheet}!` : `'${sheet.replaceAll("'", "''")}'!`;
}

/** Where people read it: `Job!B5:C7`. */
export function areaName(area: Area): string {
  return `${sheetPrefix(area.sheet)}${rangeName(area)}`;
}

/** Reads `B5`, `$B$5:C7`; `undefined` for whole rows, whole columns and anything else. */
export function parseRange(text: string): Rectangle | undefined {
  const match = /^\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?$/iu.exec(text.trim());
  if (!match) return undefined;
  const [row, column] = [Number(match[2]) - 1, columnNumber(match[1]!)];
  const [lastRow, lastColumn] = match[3] ? [Number(match[4]) - 1, columnNumber(match[3])] : [row, column];
  if (Math.min(row, lastRow) < 0) return undefined;
  return {
    row: Math.min(row, lastRow),
    column: Math.min(column, lastColumn),
    rows: Math.abs(lastRow - row) + 1,
    columns: Math.abs(lastColumn - column) + 1,
  };
}

export function overlaps(a: Rectangle, b: Rectangle): boolean {
  return (
    a.row < b.row + b.rows &&
    b.row < a.row + a.rows &&
    a.column < b.column + b.columns &&
    b.column < a.column + a.columns
  );
}
