import { closeSync, existsSync, openSync, writeSync } from "node:fs";
import { stringify } from "csv-stringify/sync";
import type { Cells } from "./history";

/** Written in pieces of about this many characters. */
const PIECE = 1 << 16;

/** A text file written piece by piece, so that a million rows do not pile up in memory. */
export class TextFile {
  private readonly handle: number;
  private waiting = "";

  constructor(path: string) {
    this.handle = openSync(path, "w");
  }

  put(text: string): void {
    this.waiting += text;
    if (this.waiting.length >= PIECE) this.flush();
  }

  close(): void {
    this.flush();
    closeSync(this.handle);
  }

  private flush(): void {
    writeSync(this.handle, this.waiting);
    this.waiting = "";
  }
}

/** A table as comma-separated text. */
export async function writeTable(
  path: string,
  columns: readonly string[],
  rows: AsyncIterable<Cells> | Iterable<Cells>,
): Promise<void> {
  const file = new TextFile(path);
  file.put(csv(columns));
  for await (const row of rows) file.put(csv(row));
  file.close();
}

function csv(cells: Cells): string {
  return stringify([[...cells]]);
}

/**
 * A table of what else there is to say, in a file beside the results. Without rows there is none;
 * where an earlier run left one, it is emptied: it would be of other rows.
 *
 * @returns The file, if there is something in it
 */
export async function writeBeside(
  output: string,
  name: (typeof LISTS)[number],
  count: number,
  columns: readonly string[],
  rows: AsyncIterable<Cells> | Iterable<Cells>,
): Promise<readonly string[]> {
  const path = beside(output, name);
  if (count > 0 || existsSync(path)) await writeTable(path, columns, rows);
  return count > 0 ? [path] : [];
}

/** Names of the tables that may stand beside results. */
export const LISTS = ["not-understood", "noticed", "trends"] as const;

export function beside(output: string, name: (typeof LISTS)[number]): string {
  return output.replace(/(?:\.(?:csv|xlsx))?$/iu, `.${name}.csv`);
}
