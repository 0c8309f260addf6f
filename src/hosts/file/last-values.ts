import { isCellError, type Cell } from "../../core/cell";
import type { Area } from "../../workbook/port";
import type { CalculatedBook } from "../engine/calculate-book";
import type { FormulaCell } from "./formula-cells";
import type { CellPatch } from "./patch-cells";
import type { StoredWorkbook } from "./read-workbook";

/** What has to be written so that the file shows what was calculated; nothing where it already does. */
export function patchesFor(cell: FormulaCell, book: StoredWorkbook, calculated: CalculatedBook): CellPatch[] {
  const { sheet, stored, fills } = cell;
  const size = calculated.spill(sheet, stored.row, stored.column);
  const dynamic = stored.formula?.kind === "array" && stored.dynamic;
  const now: Area = dynamic ? { ...fills, ...size } : fills;
  const patches: CellPatch[] = [];
  for (const { row, column } of cellsOf(now)) {
    const value = dynamic
      ? calculated.value(sheet, row, column)
      : withinFixed(cell, row - fills.row, column - fills.column, size, calculated);
    const before = storedAt(book, sheet, row, column);
    const anchor = row === fills.row && column === fills.column;
    const resized = anchor && dynamic && (size.rows !== fills.rows || size.columns !== fills.columns);
    if (!resized && before?.hasValue && same(before.value, value)) continue;
    patches.push({ row, column, value, ...(resized ? { fills: size } : {}) });
  }
  // What a shorter result no longer fills is blank again.
  for (const { row, column } of cellsOf(fills)) {
    const inside = row < now.row + now.rows && column < now.column + now.columns;
    if (!inside && storedAt(book, sheet, row, column)?.hasValue) patches.push({ row, column, value: null });
  }
  return patches;
}

/** An array formula over a fixed range: one row or column is repeated, and what is left over is `#N/A`. */
function withinFixed(
  cell: FormulaCell,
  down: number,
  right: number,
  size: { rows: number; columns: number },
  calculated: CalculatedBook,
): Cell {
  const r = size.rows === 1 ? 0 : down;
  const c = size.columns === 1 ? 0 : right;
  if (r >= size.rows || c >= size.columns) return { error: "#N/A" };
  return calculated.value(cell.sheet, cell.stored.row + r, cell.stored.column + c);
}

export function cellsOf(area: Area): { row: number; column: number }[] {
  return Array.from({ length: area.rows * area.columns }, (_, i) => ({
    row: area.row + Math.floor(i / area.columns),
    column: area.column + (i % area.columns),
  }));
}

function storedAt(book: StoredWorkbook, sheet: string, row: number, column: number) {
  return book.sheets.find(({ name }) => name === sheet)?.at(row, column);
}

/** The engine rounds to twelve decimals: a difference below that is none. */
function same(before: Cell, after: Cell): boolean {
  if (typeof before === "number" && typeof after === "number") {
    return Math.abs(before - after) <= 1e-12 * Math.max(1, Math.abs(before), Math.abs(after));
  }
  if (isCellError(before) && isCellError(after)) return before.error === after.error;
  return before === after;
}
