import type { Cell } from "../../core/cell";
import { WorkbookFault } from "../../workbook/port";

/** Reads a Parquet file whole: its column names as the header row, then its rows. */
export async function readParquet(file: string): Promise<readonly (readonly Cell[])[]> {
  const { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects, parquetSchema } = await import("hyparquet");
  try {
    const buffer = await asyncBufferFromFile(file);
    const metadata = await parquetMetadataAsync(buffer);
    const columns = parquetSchema(metadata).children.map((child) => child.element.name);
    const objects = await parquetReadObjects({ file: buffer, metadata });
    return [columns, ...objects.map((row) => columns.map((column) => toCell(row[column])))];
  } catch (error) {
    throw new WorkbookFault(`"${file}" cannot be read as Parquet (${(error as Error).message}).`, "file");
  }
}

function toCell(value: unknown): Cell {
  if (value === null || value === undefined) return "";
  if (typeof value === "bigint") return Number(value);
  if (value instanceof Date) return value.toISOString().slice(0, 10);
  if (typeof value === "number" || typeof value === "string" || typeof value === "boolean") return value;
  return String(value);
}
