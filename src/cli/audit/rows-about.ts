import { closeSync, openSync, readSync } from "node:fs";
import path from "node:path";
import { isBlank } from "../../core/cell";
import { readTables } from "../../hosts/table/read-tables";

/** Titles, totals and odd quotes make the count wrong by no more than this [rows]. */
export const ROWS_ABOUT = 1000;

/** About how many rows tables have, without reading text tables cell by cell: a million rows in a fraction of a second. */
export async function rowsAbout(files: readonly string[]): Promise<number> {
  let rows = 0;
  for (const file of files) {
    if ([".csv", ".tsv", ".txt"].includes(path.extname(file).toLowerCase())) rows += linesOf(file);
    else for await (const chunk of readTables([file])) rows += chunk.rows.filter((row) => !row.every(isBlank)).length;
  }
  return rows;
}

const [QUOTE, NEW_LINE] = [0x22, 0x0a];
/** What a blank row is made of: tab, line ends, space, quotes, commas, semicolons. */
const NOTHING = new Set([0x09, NEW_LINE, 0x0d, 0x20, QUOTE, 0x2c, 0x3b]);

/** Lines of a text table with something in them; a line end within quotes ends none. */
function linesOf(file: string): number {
  const bytes = Buffer.alloc(1 << 20);
  const handle = openSync(file, "r");
  let lines = 0;
  let quoted = false;
  let something = false;
  try {
    for (let count = readSync(handle, bytes); count > 0; count = readSync(handle, bytes)) {
      for (let i = 0; i < count; i++) {
        const byte = bytes[i]!;
        if (byte === QUOTE) quoted = !quoted;
        else if (!something && !NOTHING.has(byte)) something = true;
        else if (byte === NEW_LINE && !quoted) {
          if (something) lines += 1;
          something = false;
        }
      }
    }
  } finally {
    closeSync(handle);
  }
  return something ? lines + 1 : lines;
}
