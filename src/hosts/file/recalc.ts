import { isCellError } from "../../core/cell";
import { cellName, overlaps, sheetPrefix } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import { calculateBook, type Book, type BookCell, type CalculatedBook } from "../engine/calculate-book";
import { affectedBy } from "./affected";
import { formulaCells, type FormulaCell } from "./formula-cells";
import { closePackage } from "./open-package";
import { cellsOf, patchesFor } from "./last-values";
import { patchCells } from "./patch-cells";
import { readWorkbook, type StoredWorkbook } from "./read-workbook";
import { whyNotCalculated, whyNotTrusted } from "./trust";

export interface Recalculated {
  /** The file with new last values; the very bytes that came where none changed. */
  readonly bytes: Uint8Array;
  /** Formulas that call functions of ours. */
  readonly ours: number;
  /** Ours and those that depend on them. */
  readonly due: number;
  /** Cells whose last value was written anew, spilled ones included. */
  readonly written: number;
  /** Formulas that keep the last value the file came with, and why. */
  readonly kept: readonly Kept[];
}

export interface Kept {
  /** `Sheet!B5`. */
  readonly cell: string;
  readonly formula: string;
  readonly reason: string;
}

/** Each round takes out the formulas that cannot be trusted; what they spoiled is calculated again. */
const MOST_ROUNDS = 8;

/**
 * Fills the last values of our functions, and of what depends on them, into a workbook file. Only
 * those values change; every other part of the file keeps its bytes.
 *
 * @param bytes - The file
 * @param name - What to call it in messages
 * @throws WorkbookFault of reason `file` where it is not a workbook
 */
export async function recalculate(bytes: Uint8Array, name: string): Promise<Recalculated> {
  const book = readWorkbook(bytes, name);
  const cells = formulaCells(book);
  const ours = cells.filter((cell) => cell.ours).length;
  if (ours === 0) return { bytes, ours, due: 0, written: 0, kept: [] };
  const { due, needed } = affectedBy(cells, (cell) => cell.stored.hasValue);

  const kept = new Map<FormulaCell, string>();
  for (const cell of [...due, ...needed]) {
    const reason = whyNotCalculated(cell);
    if (reason) kept.set(cell, reason);
  }
  const live = () => [...due, ...needed].filter((cell) => !kept.has(cell));
  let calculated = await calculateBook(bookOf(book, live()));
  for (let round = 1; round < MOST_ROUNDS; round++) {
    const doubtful = live().flatMap((cell) => {
      const reason = whyNotTrusted(cell, calculated, (area) => holdsError(area, book, calculated));
      return reason ? [[cell, reason] as const] : [];
    });
    if (doubtful.length === 0) break;
    for (const [cell, reason] of doubtful) kept.set(cell, reason);
    calculated = await calculateBook(bookOf(book, live()));
  }

  const parts = new Map(book.parts);
  let written = 0;
  for (const sheet of book.sheets) {
    const patches = [...due]
      .filter((cell) => cell.sheet === sheet.name && !kept.has(cell))
      .flatMap((cell) => patchesFor(cell, book, calculated));
    if (patches.length === 0) continue;
    written += patches.length;
    parts.set(sheet.part, new TextEncoder().encode(patchCells(sheet, patches)));
  }
  return {
    bytes: written === 0 ? bytes : closePackage(parts),
    ours,
    due: due.size,
    written,
    kept: cells.flatMap((cell): Kept[] => {
      const reason = due.has(cell) ? kept.get(cell) : undefined;
      const name = `${sheetPrefix(cell.sheet)}${cellName(cell.stored.row, cell.stored.column)}`;
      return reason === undefined ? [] : [{ cell: name, formula: cell.formula, reason }];
    }),
  };
}

/** The workbook as the engine gets it: formulas to calculate, and last values everywhere else. */
function bookOf(book: StoredWorkbook, live: readonly FormulaCell[]): Book {
  const formulas = new Map(live.map((cell) => [`${cell.sheet}!${cell.stored.row},${cell.stored.column}`, cell]));
  const spilled = new Set(
    live.flatMap(({ sheet, fills }) => cellsOf(fills).map(({ row, column }) => `${sheet}!${row},${column}`)),
  );
  return {
    sheets: book.sheets.map(({ name, rows }) => ({
      name,
      cells: rows.flatMap((row) =>
        row.cells.flatMap(({ row, column, value }): BookCell[] => {
          const key = `${name}!${row},${column}`;
          const formula = formulas.get(key);
          if (formula) return [{ row, column, content: { formula: formula.formula } }];
          if (spilled.has(key) || value === "" || value === null || value === undefined) return [];
          // An error that stands in the file is an error for whoever reads it, not a text.
          return [{ row, column, content: isCellError(value) ? { formula: `=${value.error}` } : { value } }];
        }),
      ),
    })),
    names: book.names.map(({ name, formula, sheet }) => ({
      name,
      refersTo: formula,
      ...(sheet === undefined ? {} : { sheet }),
    })),
  };
}

function holdsError(area: Area, book: StoredWorkbook, calculated: CalculatedBook): boolean {
  const sheet = book.sheets.find(({ name }) => name.toUpperCase() === area.sheet.toUpperCase());
  if (!sheet) return false;
  return sheet.rows.some(
    (row) =>
      row.row >= area.row &&
      row.row < area.row + area.rows &&
      row.cells.some(
        (cell) =>
          overlaps(area, { ...cell, rows: 1, columns: 1 }) &&
          isCellError(calculated.value(sheet.name, cell.row, cell.column)),
      ),
  );
}
