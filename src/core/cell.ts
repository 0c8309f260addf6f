/**
 * What a worksheet cell can hold, the same for every host. An error that arrives in a cell, and an
 * error that leaves, is a plain object: hosts turn it into their own kind.
 */
export type Cell = string | number | boolean | null | undefined | CellError;

/** Only `#VALUE!` and `#N/A` can carry a message out of a worksheet function. */
export interface CellError {
  readonly error:
    "#VALUE!" | "#N/A" | "#REF!" | "#NAME?" | "#NUM!" | "#DIV/0!" | "#NULL!" | "#BUSY!" | "#SPILL!" | "#CALC!";
  readonly message?: string;
}

export type Block = readonly (readonly Cell[])[];

export function isCellError(cell: unknown): cell is CellError {
  return typeof cell === "object" && cell !== null && typeof (cell as CellError).error === "string";
}

/** Blank is an empty cell or text of nothing but spaces; it is never zero. */
export function isBlank(cell: Cell): boolean {
  return cell === null || cell === undefined || (typeof cell === "string" && cell.trim() === "");
}
