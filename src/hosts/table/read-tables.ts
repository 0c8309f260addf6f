import { readdirSync, statSync } from "node:fs";
import path from "node:path";
import type { DateOrder } from "../../core/fleet/dates";
import { dateOrderOf } from "../../core/fleet/table-shape";
import { WorkbookFault } from "../../workbook/port";
import { readCsv } from "./read-csv";
import { readParquet } from "./read-parquet";
import { readXlsx } from "./read-xlsx";
import { START, type Position, type TableChunk } from "./table-chunk";

const KINDS = [".csv", ".tsv", ".txt", ".xlsx", ".parquet"];

/** The table files that a path stands for: itself, or those in the folder, by name. */
export function tableFiles(given: string): readonly string[] {
  let stat;
  try {
    stat = statSync(given);
  } catch {
    throw new WorkbookFault(`There is no file or folder "${given}"; check the name.`, "file");
  }
  if (!stat.isDirectory()) return [given];
  const inside = readdirSync(given)
    .filter(
      (name) => KINDS.includes(path.extname(name).toLowerCase()) && !name.startsWith("~$") && !name.startsWith("."),
    )
    .sort()
    .map((name) => path.join(given, name));
  if (inside.length === 0) throw new WorkbookFault(`The folder "${given}" holds no ${KINDS.join(", ")} file.`, "file");
  return inside;
}

/** Reads tables chunk by chunk, one file after the other, from a position on. */
export async function* readTables(files: readonly string[], from: Position = START): AsyncGenerator<TableChunk> {
  for (let f = from.file; f < files.length; f++) {
    const first = { file: f, rows: 0, byte: 0 };
    yield* inOneDateOrder(readerOf(files[f]!, f), first, f === from.file ? from : first);
  }
}

type Read = (start: Position) => AsyncIterable<TableChunk> | Iterable<TableChunk>;

function readerOf(file: string, f: number): Read {
  switch (path.extname(file).toLowerCase()) {
    case ".xlsx":
      return (start) => readXlsx(file, f, start);
    case ".parquet":
      return (start) => readParquet(file, f, start);
    case ".csv":
    case ".tsv":
    case ".txt":
      return (start) => readCsv(file, f, start);
    default:
      throw new WorkbookFault(`"${file}" is none of ${KINDS.join(", ")}.`, "file");
  }
}

/** Gives each chunk the order of day and month that the first one of its file shows, wherever reading goes on. */
async function* inOneDateOrder(read: Read, first: Position, start: Position): AsyncGenerator<TableChunk> {
  let order = start.rows > 0 ? await orderAt(read(first)) : undefined;
  for await (const chunk of read(start)) {
    if (chunk.opens) order = dateOrderOf(chunk.header, chunk.rows);
    yield order ? { ...chunk, dateOrder: order } : chunk;
  }
}

async function orderAt(chunks: ReturnType<Read>): Promise<DateOrder | undefined> {
  for await (const { header, rows } of chunks) return dateOrderOf(header, rows);
  return undefined;
}
