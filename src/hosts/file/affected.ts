import { overlaps } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import type { FormulaCell } from "./formula-cells";

/** Which formulas hang on our functions, and which others those need. */
export interface Affected {
  /** Ours and what depends on them: these are given new values. */
  readonly due: ReadonlySet<FormulaCell>;
  /** Formulas without a last value that those read: calculated, but left as they are in the file. */
  readonly needed: ReadonlySet<FormulaCell>;
}

/** Follows references from our functions to every formula that depends on them. */
export function affectedBy(cells: readonly FormulaCell[], hasValue: (cell: FormulaCell) => boolean): Affected {
  const readers = new ReaderIndex(cells);
  const due = new Set<FormulaCell>();
  const spreading = cells.filter((cell) => cell.ours || cell.reach.anywhere);
  for (let cell = spreading.pop(); cell; cell = spreading.pop()) {
    if (due.has(cell)) continue;
    due.add(cell);
    spreading.push(...readers.takeReadersOf(cell.fills));
  }

  const blank = cells.filter((cell) => !due.has(cell) && !hasValue(cell));
  const needed = new Set<FormulaCell>();
  const asking = blank.length === 0 ? [] : [...due];
  for (let cell = asking.pop(); cell; cell = asking.pop()) {
    for (const read of blank) {
      if (needed.has(read) || !cell.reach.areas.some((area) => meet(area, read.fills))) continue;
      needed.add(read);
      asking.push(read);
    }
  }
  return { due, needed };
}

interface Reader {
  readonly area: Area;
  readonly cell: FormulaCell;
}

/**
 * Who reads what. Most formulas read cells of a few rows: those are found by row. A reader is taken
 * out when it is found, so the work grows with the number of references, not with chains of them.
 */
class ReaderIndex {
  readonly #byRow = new Map<string, Set<Reader>>();
  readonly #tall = new Map<string, Set<Reader>>();
  static readonly #TALL = 4;

  constructor(cells: readonly FormulaCell[]) {
    for (const cell of cells) for (const area of cell.reach.areas) this.#add({ area, cell });
  }

  takeReadersOf(fills: Area): FormulaCell[] {
    const found: FormulaCell[] = [];
    const take = (readers: Set<Reader> | undefined) => {
      for (const reader of readers ?? []) {
        if (!overlaps(reader.area, fills)) continue;
        readers!.delete(reader);
        found.push(reader.cell);
      }
    };
    const sheet = fills.sheet.toUpperCase();
    for (let row = fills.row; row < fills.row + fills.rows; row++) take(this.#byRow.get(`${sheet}!${row}`));
    take(this.#tall.get(sheet));
    return found;
  }

  #add(reader: Reader): void {
    const { sheet, row, rows } = reader.area;
    if (rows > ReaderIndex.#TALL) return void this.#put(this.#tall, sheet.toUpperCase(), reader);
    for (let r = row; r < row + rows; r++) this.#put(this.#byRow, `${sheet.toUpperCase()}!${r}`, reader);
  }

  #put(index: Map<string, Set<Reader>>, key: string, reader: Reader): void {
    const readers = index.get(key);
    if (readers) readers.add(reader);
    else index.set(key, new Set([reader]));
  }
}

function meet(a: Area, b: Area): boolean {
  return a.sheet.toUpperCase() === b.sheet.toUpperCase() && overlaps(a, b);
}
