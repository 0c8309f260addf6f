import { createReadStream, openSync, readSync, closeSync } from "node:fs";
import { parse, type CsvError } from "csv-parse";
import type { Cell } from "../../core/cell";
import { headerOf } from "../../core/fleet/table-shape";
import { matchLabel } from "../../core/readings/match";
import { WorkbookFault } from "../../workbook/port";
import { CHUNK_ROWS, noHeader, NotATable, type Position, type TableChunk } from "./table-chunk";

interface Dialect {
  readonly delimiter: string;
  readonly encoding: "utf8" | "utf16le" | "latin1";
}

interface Parsed {
  readonly record: string[];
  readonly info: { readonly bytes: number };
}

/** Reads a text table in bounded memory; `start.byte` is the end of a row that was read before. */
export async function* readCsv(file: string, f: number, start: Position): AsyncGenerator<TableChunk> {
  const dialect = dialectOf(file);
  const head = await headOf(file, dialect);
  const from = start.byte > 0 ? start.byte : head.bytes;
  let rows: string[][] = [];
  let done = start.rows;
  let byte = from;
  const chunk = (): TableChunk => ({
    file,
    header: head.header,
    rows,
    firstRow: head.rows + 1 + done,
    opens: done === 0,
    next: { file: f, rows: done + rows.length, byte },
  });
  for await (const { record, info } of parsed(file, dialect, from)) {
    rows.push(record);
    byte = from + info.bytes;
    if (rows.length < CHUNK_ROWS) continue;
    yield chunk();
    done += rows.length;
    rows = [];
  }
  if (rows.length > 0) yield chunk();
}

/** The headers, the rows up to them, and the byte behind them. */
async function headOf(
  file: string,
  dialect: Dialect,
): Promise<{ header: readonly Cell[]; rows: number; bytes: number }> {
  const seen: Parsed[] = [];
  for await (const row of parsed(file, dialect, 0)) {
    seen.push(row);
    if (seen.length >= 12) break;
  }
  const found = headerOf(seen.map((row) => row.record));
  if (found === undefined) throw noHeader(file);
  return { header: found.header, rows: found.row + 1, bytes: seen[found.row]!.info.bytes };
}

async function* parsed(file: string, { delimiter, encoding }: Dialect, from: number): AsyncGenerator<Parsed> {
  const input = createReadStream(file, { start: from });
  const parser = parse({
    info: true,
    bom: from === 0,
    delimiter,
    encoding,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: false,
  });
  input.on("error", (error) => parser.destroy(error));
  input.pipe(parser);
  try {
    for await (const row of parser) yield row as Parsed;
  } catch (error) {
    throw new WorkbookFault(
      `"${file}" cannot be read as a table: ${(error as CsvError).message}. Save it again as CSV (UTF-8).`,
      "file",
    );
  } finally {
    input.destroy();
  }
}

/** Delimiter from the first lines; the encoding from the whole file, for its first umlaut may come late. */
function dialectOf(file: string): Dialect {
  const bytes = Buffer.alloc(65536);
  let count: number;
  let encoding: Dialect["encoding"];
  try {
    const handle = openSync(file, "r");
    try {
      encoding = encodingOf(handle);
      count = readSync(handle, bytes, 0, bytes.length, 0);
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    throw new WorkbookFault(
      `"${file}" cannot be read (${(error as NodeJS.ErrnoException).code ?? "unknown reason"}).`,
      "file",
    );
  }
  const head = bytes.subarray(0, count);
  if (count === 0) throw new NotATable(`"${file}" is empty.`);
  if (encoding !== "utf16le" && head.includes(0))
    throw new WorkbookFault(
      `"${file}" is not plain text (UTF-8); save it as CSV (UTF-8), or give the .xlsx itself.`,
      "file",
    );
  return {
    delimiter: delimiterOf(
      head
        .toString(encoding)
        .split(/\r\n?|\n/u)
        .slice(0, 12),
    ),
    encoding,
  };
}

const DELIMITERS = [",", ";", "\t", "|"];

/** What parts a line into most known headers; decimal commas and notes may hold more of another mark. */
function delimiterOf(lines: readonly string[]): string {
  const marks = DELIMITERS.map((mark) => {
    const parted = lines.map((line) => line.split(mark));
    const known = parted.map(
      (cells) => cells.filter((cell) => matchLabel(cell.replaceAll('"', "")) !== undefined).length,
    );
    return { mark, known: Math.max(...known), count: parted.reduce((sum, cells) => sum + cells.length - 1, 0) };
  });
  marks.sort((a, b) => b.known - a.known || b.count - a.count);
  return marks[0]!.mark;
}

/** The mark that "Unicode text" of a spreadsheet begins with. */
const UTF16_MARK = Buffer.from([0xff, 0xfe]);

function encodingOf(handle: number): Dialect["encoding"] {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  const bytes = Buffer.alloc(1 << 20);
  for (let at = 0, count = 1; count > 0; at += count) {
    count = readSync(handle, bytes, 0, bytes.length, at);
    if (at === 0 && bytes.subarray(0, 2).equals(UTF16_MARK)) return "utf16le";
    try {
      decoder.decode(bytes.subarray(0, count), { stream: count > 0 });
    } catch {
      return "latin1";
    }
  }
  return "utf8";
}
