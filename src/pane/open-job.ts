import { isBlank, isCellError, type Cell } from "../core/cell";
import { parseEntry } from "../core/readings/parse";
import type { Entry, Measured } from "../core/readings/types";
import { fail, faultMessage, ok, type Result } from "../core/result";
import { areaName } from "../workbook/address";
import {
  locateReadings,
  readJobSheet,
  type JobSheet,
  type JobSheetRead,
  type ReadingCell,
} from "../workbook/job-sheet";
import type { Area, CellWrite, Workbook } from "../workbook/port";

/** A job sheet as the pane holds it; the sheet itself stays the one place where readings are kept. */
export interface OpenJob {
  readonly sheet: string;
  readonly place: JobSheet;
  readonly before: JobSheetRead;
  /** Readings taken once more after the repair. */
  readonly after: JobSheetRead;
}

export type Visit = "before" | "after";

/** Reads a job sheet; `undefined` where the sheet is not one machine's page (any more). */
export async function openJob(workbook: Workbook, sheet: string): Promise<OpenJob | undefined> {
  const used = await workbook.usedArea(sheet);
  if (used.rows === 0) return undefined;
  const { values } = await workbook.read(used);
  const place = locateReadings(values);
  if (!place) return undefined;
  return { sheet, place, before: readJobSheet(values, place.cells), after: readJobSheet(values, place.proof) };
}

export function cellOf(open: OpenJob, visit: Visit, id: string): ReadingCell | undefined {
  return (visit === "before" ? open.place.cells : open.place.proof).get(id);
}

/** True where two readings of a sheet hold the same cells in the same places. */
export function sameJob(a: OpenJob, b: OpenJob): boolean {
  return (
    a.sheet === b.sheet &&
    sameMap(a.place.cells, b.place.cells, (x, y) => x.row === y.row && x.column === y.column) &&
    sameMap(a.place.proof, b.place.proof, (x, y) => x.row === y.row && x.column === y.column) &&
    sameMap(a.before.typed, b.before.typed, sameCell) &&
    sameMap(a.after.typed, b.after.typed, sameCell)
  );
}

function sameMap<T>(a: ReadonlyMap<string, T>, b: ReadonlyMap<string, T>, same: (x: T, y: T) => boolean): boolean {
  if (a.size !== b.size) return false;
  for (const [key, value] of a) {
    const other = b.get(key);
    if (other === undefined || !same(value, other)) return false;
  }
  return true;
}

function sameCell(a: Cell, b: Cell): boolean {
  return a === b || (isCellError(a) && isCellError(b) && a.error === b.error);
}

/** How temperatures are typed and shown; cells hold °C or say their unit. */
export type TemperatureUnit = "°C" | "°F";

/** What was typed, read the way the sheet's own functions will read it. */
export interface Typed {
  readonly measured: Measured | null;
  /** What goes into the cell: a bare number as a number, everything else as it was typed. */
  readonly write: string | number;
}

/**
 * Reads typed text for one entry.
 *
 * @param text - As typed; blank clears the cell
 * @param temperatures - Unit of a bare number where the entry is a temperature
 * @returns The reading and what to write; the fault with the sentence to show
 */
export function readTyped(text: string, entry: Entry, temperatures: TemperatureUnit): Result<Typed> {
  const trimmed = text.trim();
  const bareNumber = /^[+-]?(?:\d+[.,]?\d*|[.,]\d+)$/u.test(trimmed);
  const fahrenheit = temperatures === "°F" && entry.kind === "quantity" && entry.unit === "°C" && bareNumber;
  const cell = fahrenheit ? `${trimmed} °F` : trimmed;
  const parsed = parseEntry(cell, entry);
  if (!parsed.ok) return parsed;
  const measured = parsed.value;
  if (measured === null) return ok({ measured, write: "" });
  if (measured.kind === "choice") return ok({ measured, write: measured.value });
  if (measured.kind === "number" && bareNumber && !fahrenheit) return ok({ measured, write: measured.value });
  return ok({ measured, write: cell });
}

/** A cell's content as a field shows it. */
export function shownCell(cell: Cell, entry: Entry, temperatures: TemperatureUnit): string {
  if (isBlank(cell)) return "";
  if (isCellError(cell)) return cell.error;
  if (typeof cell !== "number" || entry.kind !== "quantity") return String(cell);
  const value = temperatures === "°F" && entry.unit === "°C" ? cell * 1.8 + 32 : cell;
  const fixed = value.toFixed(entry.decimals);
  // More digits than the entry usually shows are kept: they were read.
  return Math.abs(Number(fixed) - value) <= 1e-9 * Math.max(1, Math.abs(value))
    ? fixed
    : String(Number(value.toPrecision(12)));
}

/** The unit that a field shows behind the number. */
export function shownUnit(entry: Entry, temperatures: TemperatureUnit): string {
  if (entry.kind !== "quantity" || entry.unit === "1" || entry.unit === "SG") return "";
  return entry.unit === "°C" ? temperatures : entry.unit === "V AC" ? "V AC" : entry.unit;
}

/** Writes one cell of the job. */
export async function writeReading(
  workbook: Workbook,
  open: OpenJob,
  visit: Visit,
  id: string,
  write: CellWrite,
): Promise<void> {
  const cell = cellOf(open, visit, id);
  if (!cell) return;
  await workbook.apply([{ do: "write", at: areaOf(open.sheet, cell), values: [[write]] }]);
}

export function areaOf(sheet: string, { row, column }: { readonly row: number; readonly column: number }): Area {
  return { sheet, row, column, rows: 1, columns: 1 };
}

/** What the selected cell holds, as text to type into a field; says where it looked. */
export async function selectedText(
  workbook: Workbook,
): Promise<Result<{ readonly text: string; readonly from: string }>> {
  const selection = await workbook.selection();
  const one: Area = { ...selection, rows: 1, columns: 1 };
  const { values } = await workbook.read(one);
  const cell = values[0]?.[0];
  const from = areaName(one);
  if (isCellError(cell)) return fail({ code: "not-understood", what: from, came: cell.error, expected: "a reading" });
  if (isBlank(cell)) return fail({ code: "missing", what: from, expected: "a reading there, or select another cell" });
  return ok({ text: String(cell), from });
}

export { faultMessage };
