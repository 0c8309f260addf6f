import { readdirSync, statSync } from "node:fs";
import path from "node:path";
import { dateOrderOf, withUnitsBelow } from "../../core/fleet/table-shape";
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
  const inside = visibleIn(given)
    .filter(({ name }) => isOf(KINDS, name))
    .map(({ name }) => path.join(given, name));
  if (inside.length === 0) throw new WorkbookFault(`The folder "${given}" holds no ${KINDS.join(", ")} file.`, "file");
  return inside;
}

/** What in a folder may hold machines too and is not read: folders, and spreadsheets of other kinds. */
export function leftInFolder(given: string): {
  readonly folders: readonly string[];
  readonly files: readonly string[];
} {
  const inside = statSync(given).isDirectory() ? visibleIn(given) : [];
  const paths = (some: typeof inside) => some.map(({ name }) => path.join(given, name));
  return {
    folders: paths(inside.filter((one) => one.isDirectory())),
    files: paths(inside.filter((one) => one.isFile() && isOf(OTHER_SHEETS, one.name))),
  };
}

const OTHER_SHEETS = [".xls", ".xlsm", ".xlsb", ".ods", ".numbers"];

/** What a folder shows, by name: no hidden files, and none that a program keeps while a workbook is open. */
function visibleIn(folder: string) {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => !name.startsWith("~$") && !name.startsWith("."))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

function isOf(kinds: readonly string[], name: string): boolean {
  return kinds.includes(path.extname(name).toLowerCase());
}

/** Reads tables chunk by chunk, one file after the other, from a position on. */
export async function* readTables(files: readonly string[], from: Position = START): AsyncGenerator<TableChunk> {
  for (let f = from.file; f < files.length; f++) {
    const first = { file: f, rows: 0, byte: 0 };
    yield* asItOpens(readerOf(files[f]!, f), first, f === from.file ? from : first);
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

/** Gives each chunk what the first one of its file shows, wherever reading goes on: units below the headers, and dates. */
async function* asItOpens(read: Read, first: Position, start: Position): AsyncGenerator<TableChunk> {
  let opening = start.rows > 0 ? await openingOf(read(first)) : {};
  for await (const chunk of read(start)) {
    if (!chunk.opens) {
      yield { ...chunk, ...opening };
      continue;
    }
    opening = shownBy(chunk);
    const rows = opening.header ? [[], ...chunk.rows.slice(1)] : chunk.rows;
    yield { ...chunk, rows, ...opening };
  }
}

type Opening = Partial<Pick<TableChunk, "header" | "dateOrder">>;

function shownBy({ header, rows }: TableChunk): Opening {
  const whole = withUnitsBelow(header, rows[0]);
  const dateOrder = dateOrderOf(header, rows);
  return { ...(whole ? { header: whole } : {}), ...(dateOrder ? { dateOrder } : {}) };
}

async function openingOf(chunks: ReturnType<Read>): Promise<Opening> {
  for await (const chunk of chunks) return shownBy(chunk);
  return {};
}
