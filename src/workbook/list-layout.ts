import { fixedRange, sheetPrefix } from "./address";
import type { ListTemplate } from "./template-schema";

/** Where a list's cells lie; other sheets look values up by it. */
export interface ListLayout {
  readonly sheet: string;
  readonly headerRow: number;
  readonly firstRow: number;
  readonly rows: number;
  readonly columns: readonly string[];
}

export function listLayout(template: ListTemplate, sheet = template.sheet): ListLayout {
  const headerRow = 1 + template.note.length;
  return { sheet, headerRow, firstRow: headerRow + 1, rows: template.rows, columns: template.columns };
}

/** The list with its header row, as a formula refers to it. */
export function listRange(layout: ListLayout): string {
  return `${sheetPrefix(layout.sheet)}${fixedRange({ row: layout.headerRow, column: 0, rows: layout.rows + 1, columns: layout.columns.length })}`;
}

/** The cells of one column, without its header; `undefined` where the list has no such column. */
export function listColumn(layout: ListLayout, id: string): string | undefined {
  const column = layout.columns.indexOf(id);
  if (column < 0) return undefined;
  return `${sheetPrefix(layout.sheet)}${fixedRange({ row: layout.firstRow, column, rows: layout.rows, columns: 1 })}`;
}

/** The cells of one column from its header down. */
export function listColumnWithHeader(layout: ListLayout, id: string): string {
  const column = layout.columns.indexOf(id);
  if (column < 0) throw new Error(`The sheet ${layout.sheet} has no column for "${id}".`);
  return `${sheetPrefix(layout.sheet)}${fixedRange({ row: layout.headerRow, column, rows: layout.rows + 1, columns: 1 })}`;
}
