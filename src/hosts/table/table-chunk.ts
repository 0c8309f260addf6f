import type { Cell } from "../../core/cell";
import type { DateOrder } from "../../core/fleet/dates";
import { WorkbookFault } from "../../workbook/port";

export const CHUNK_ROWS = 2000;

/** Where reading goes on: a file of the list, the rows of it that are done, and its byte (CSV only). */
export interface Position {
  readonly file: number;
  readonly rows: number;
  readonly byte: number;
}

export const START: Position = { file: 0, rows: 0, byte: 0 };

/** Some rows of one table, header apart. */
export interface TableChunk {
  readonly file: string;
  readonly header: readonly Cell[];
  readonly rows: readonly (readonly Cell[])[];
  /** Row of the first one in its file, from 1, as a spreadsheet shows it. */
  readonly firstRow: number;
  /** True for the first rows of a file. */
  readonly opens: boolean;
  /** With the first rows: sheets of the same file that have a header too, of which none was read. */
  readonly notRead?: readonly string[];
  /** How the file writes dates that can be read in two ways, told from its first chunk. */
  readonly dateOrder?: DateOrder;
  /** Where the next chunk begins. */
  readonly next: Position;
}

/** What holds no table of a fleet at all, such as notes that lie in the same folder. */
export class NotATable extends WorkbookFault {
  constructor(message: string) {
    super(message, "file");
  }
}

export function noHeader(file: string): NotATable {
  return new NotATable(
    `"${file}" has no header row that is understood; name the columns as in the readings catalogue, such as Machine, Rested voltage, Key-off draw.`,
  );
}
