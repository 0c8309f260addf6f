import type { Cell } from "../../core/cell";

/**
 * Rows that a text table lost in one of its cells: after a quote that was not closed, all up to the next
 * quote is one text, lines and all. A note of several lines is none: its lines have no columns.
 *
 * @returns How many lines of the cell have as many columns as the table
 */
export function swallowedRows(cell: Cell | undefined, columns: number): number {
  if (typeof cell !== "string" || columns < 2 || !cell.includes("\n")) return 0;
  return cell
    .split("\n")
    .slice(1)
    .filter((line) => [",", ";", "\t"].some((mark) => line.split(mark).length >= columns)).length;
}
