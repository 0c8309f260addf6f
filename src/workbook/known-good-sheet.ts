import { isBlank, type Block, type Cell } from "../core/cell";
import { jobsFromTable } from "../core/readings/from-cells";
import { matchLabel } from "../core/readings/match";
import type { Job } from "../core/readings/types";
import type { Step, Workbook } from "./port";

/** One known-good part as its row of the sheet says. */
export interface KnownGoodPart {
  readonly row: number;
  readonly partNumber: string;
  readonly job: Job;
}

/** The workbook's list of parts that are known to be good. */
export interface KnownGoodSheet {
  readonly sheet: string;
  /** Column of each catalogue id. */
  readonly columns: ReadonlyMap<string, number>;
  readonly parts: readonly KnownGoodPart[];
  /** First row below the header whose known columns are all blank. */
  readonly freeRow: number;
}

const PART_NUMBER = "regulator-part-number";
/** Of these at least so many head columns of a list of known-good parts. */
const DIODE = /^(?:upper|lower)-(?:forward|reverse)-[abc]$/u;
const ENOUGH_COLUMNS = 4;
const FIRST_ROWS = 30;

/** Finds the list by its header row: a part number and diode-check readings. */
export function locateKnownGood(sheet: string, values: Block): KnownGoodSheet | undefined {
  for (let row = 0; row < Math.min(values.length, FIRST_ROWS); row++) {
    const columns = headerColumns(values[row]!);
    if (!columns.has(PART_NUMBER) || [...columns.keys()].filter((id) => DIODE.test(id)).length < ENOUGH_COLUMNS) continue;
    return readList(sheet, values, row, columns);
  }
  return undefined;
}

function headerColumns(line: readonly Cell[]): ReadonlyMap<string, number> {
  const columns = new Map<string, number>();
  line.forEach((cell, column) => {
    const match = typeof cell === "string" && !isBlank(cell) ? matchLabel(cell) : undefined;
    if (match && !columns.has(match.entry.id)) columns.set(match.entry.id, column);
  });
  return columns;
}

function readList(sheet: string, values: Block, headerRow: number, columns: ReadonlyMap<string, number>): KnownGoodSheet {
  const header = values[headerRow]!;
  const parts: KnownGoodPart[] = [];
  let freeRow = headerRow + 1;
  let freeFound = false;
  for (let row = headerRow + 1; row < values.length; row++) {
    const line = values[row]!;
    const blank = [...columns.values()].every((column) => isBlank(line[column]));
    if (blank) {
      if (!freeFound) [freeRow, freeFound] = [row, true];
      continue;
    }
    if (!freeFound) freeRow = row + 1;
    const partNumber = String(line[columns.get(PART_NUMBER)!] ?? "").trim();
    const [read] = jobsFromTable([header, line]);
    if (read && partNumber !== "") parts.push({ row, partNumber, job: read.job });
  }
  return { sheet, columns, parts, freeRow };
}

/** Parts of one number; case and spaces do not matter. Without a number there are none. */
export function partsOfNumber(parts: readonly KnownGoodPart[], partNumber: string): readonly KnownGoodPart[] {
  const wanted = plain(partNumber);
  return wanted === "" ? [] : parts.filter((part) => plain(part.partNumber) === wanted);
}

export function partNumberOf(job: Job): string {
  const text = job.get(PART_NUMBER);
  return text?.kind === "text" ? text.value : "";
}

function plain(text: string): string {
  return text.replaceAll(/[\s-]+/gu, "").toLowerCase();
}

/** The one write that adds a part to the list; columns the list lacks are left out. */
export function addPartStep(list: KnownGoodSheet, cells: ReadonlyMap<string, string | number>): Step {
  const columns = [...list.columns].filter(([id]) => cells.has(id));
  const first = Math.min(...columns.map(([, column]) => column));
  const last = Math.max(...columns.map(([, column]) => column));
  const values: (string | number | undefined)[] = Array.from({ length: last - first + 1 }, () => undefined);
  for (const [id, column] of columns) values[column - first] = cells.get(id);
  return { do: "write", at: { sheet: list.sheet, row: list.freeRow, column: first, rows: 1, columns: values.length }, values: [values] };
}

/** Reads the workbook's list of known-good parts; `undefined` where no sheet has one. */
export async function readKnownGood(workbook: Workbook): Promise<KnownGoodSheet | undefined> {
  for (const sheet of await workbook.sheetNames()) {
    const used = await workbook.usedArea(sheet);
    if (used.rows === 0 || used.columns < ENOUGH_COLUMNS + 1) continue;
    const head = await workbook.read({ ...used, rows: Math.min(used.rows, FIRST_ROWS), columns: Math.min(used.columns, 60) });
    if (!locateKnownGood(sheet, head.values)) continue;
    const { values } = await workbook.read(used);
    return locateKnownGood(sheet, values);
  }
  return undefined;
}
