import type { Cell } from "../../core/cell";
import { headerRowOf } from "../../core/fleet/table-shape";
import { WorkbookFault } from "../../workbook/port";
import { CHUNK_ROWS, noHeader, type Position, type TableChunk } from "./table-chunk";

/** Rows that the header is looked for in, besides the names of the columns. */
const OPENING = 12;

/** Reads a Parquet file one of its row groups at a time; the names of its columns count as its first row. */
export async function* readParquet(file: string, f: number, start: Position): AsyncGenerator<TableChunk> {
  const { columns, groups, read } = await opened(file);
  const opening = [columns, ...(await read(0, OPENING)).map((row) => cellsOf(row, columns))];
  const headerAt = headerRowOf(opening);
  if (headerAt === undefined) throw noHeader(file);
  let done = start.rows;
  const chunk = (rows: readonly ParquetRow[]): TableChunk => ({
    file,
    header: opening[headerAt]!,
    rows: rows.map((row) => cellsOf(row, columns)),
    firstRow: headerAt + 2 + done,
    opens: done === 0,
    next: { file: f, rows: done + rows.length, byte: 0 },
  });
  // Chunks lie across groups, so that a file grouped otherwise is cut alike.
  let rest: readonly ParquetRow[] = [];
  let end = 0;
  for (const rows of groups) {
    const first = Math.max(end, headerAt + done + rest.length);
    end += rows;
    if (first >= end) continue;
    const held = [...rest, ...(await read(first, end))];
    let at = 0;
    for (; at + CHUNK_ROWS <= held.length; at += CHUNK_ROWS) {
      yield chunk(held.slice(at, at + CHUNK_ROWS));
      done += CHUNK_ROWS;
    }
    rest = held.slice(at);
  }
  if (rest.length > 0) yield chunk(rest);
}

type ParquetRow = Readonly<Record<string, unknown>>;

async function opened(file: string) {
  const { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects, parquetSchema } = await import("hyparquet");
  const readable = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw new WorkbookFault(`"${file}" cannot be read as Parquet (${(error as Error).message}).`, "file");
    }
  };
  return readable(async () => {
    const buffer = await asyncBufferFromFile(file);
    const metadata = await parquetMetadataAsync(buffer);
    return {
      columns: parquetSchema(metadata).children.map((child) => child.element.name),
      groups: metadata.row_groups.map((group) => Number(group.num_rows)),
      read: (rowStart: number, rowEnd: number): Promise<readonly ParquetRow[]> =>
        readable(() => parquetReadObjects({ file: buffer, metadata, rowStart, rowEnd })),
    };
  });
}

function cellsOf(row: ParquetRow, columns: readonly string[]): readonly Cell[] {
  return columns.map((column) => toCell(row[column]));
}

function toCell(value: unknown): Cell {
  // Data frames write "not a number" where there is no value.
  if (value === null || value === undefined || Number.isNaN(value)) return "";
  if (typeof value === "bigint") return Number(value);
  if (value instanceof Date) return value.toISOString().slice(0, 10);
  if (typeof value === "number" || typeof value === "string" || typeof value === "boolean") return value;
  return String(value);
}
