import type { IRange } from "@univerjs/core";

type Keyed<T> = Readonly<Record<string | number, T | null | undefined>>;

/** What the engine knows of the formulas of all workbooks; a formula filled down is told by its distance. */
export type Formulas = Keyed<
  Keyed<Keyed<Keyed<{ readonly f: string; readonly si?: string; readonly x?: number; readonly y?: number }>>>
>;

/** Formulas outside cells, of rules for colours and for what may be typed. */
export type OtherFormulas = Keyed<Keyed<Keyed<{ readonly f: string; readonly ranges: readonly IRange[] }>>>;

export type Sheets = Keyed<Keyed<{ readonly rowCount: number; readonly columnCount: number }>>;

/** Sheets' ids by their names. */
export type SheetNames = Keyed<Keyed<string>>;

/**
 * All that decides which formula reads what, in one row: every formula with its place, and the names
 * and sizes of the sheets. Two that are the same entry by entry mean the same.
 */
export function standingFormulas(
  formulas: Formulas,
  others: OtherFormulas,
  sheets: Sheets,
  names: SheetNames,
): readonly unknown[] {
  const all: unknown[] = [];
  for (const unit in sheets) {
    for (const sheet in sheets[unit]) {
      const { rowCount, columnCount } = sheets[unit][sheet]!;
      all.push(unit, sheet, rowCount, columnCount);
    }
    for (const name in names[unit]) all.push(name, names[unit][name]);
  }
  for (const unit in formulas) {
    for (const sheet in formulas[unit]) {
      all.push(unit, sheet);
      const rows = formulas[unit][sheet];
      for (const row in rows) {
        const line = rows[row];
        all.push(row);
        for (const column in line) {
          const formula = line[column];
          if (formula) all.push(column, formula.f, formula.si, formula.x, formula.y);
        }
      }
    }
  }
  for (const unit in others) {
    for (const sheet in others[unit]) {
      all.push(unit, sheet);
      for (const id in others[unit][sheet]) {
        const other = others[unit][sheet][id];
        if (!other) continue;
        all.push(id, other.f);
        for (const { startRow, startColumn, endRow, endColumn } of other.ranges)
          all.push(startRow, startColumn, endRow, endColumn);
      }
    }
  }
  return all;
}

export function standAlike(one: readonly unknown[], other: readonly unknown[]): boolean {
  // Whole rows and columns have no number at their ends.
  return one.length === other.length && one.every((entry, at) => Object.is(entry, other[at]));
}
