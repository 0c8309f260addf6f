import { isBlank, type Block, type Cell } from "../core/cell";
import type { Fault } from "../core/result";
import { jobFromCells } from "../core/readings/from-cells";
import { matchLabel } from "../core/readings/match";
import type { Job } from "../core/readings/types";
import type { Workbook } from "./port";

/** Where one reading of a job sheet stands: its label, and the value beside it. Zero-based. */
export interface ReadingCell {
  readonly row: number;
  readonly column: number;
  /** Label as the sheet has it. */
  readonly label: string;
}

/** A sheet recognised as one machine's job. */
export interface JobSheet {
  /** Value cell of each reading and fact, by catalogue id. */
  readonly cells: ReadonlyMap<string, ReadingCell>;
  /** Value cells of the readings taken once more after the repair: a label's second place. */
  readonly proof: ReadonlyMap<string, ReadingCell>;
}

/** What stands in the located cells. */
export interface JobSheetRead {
  readonly job: Job;
  /** Cells as they are, blanks left out. */
  readonly typed: ReadonlyMap<string, Cell>;
  /** Why a cell could not be read. */
  readonly faults: ReadonlyMap<string, Fault>;
}

/** A page of label and value must have this many known labels in one column to be taken for a job. */
const ENOUGH_LABELS = 8;
/** Longer texts are notes and steps, never labels. */
const LONGEST_LABEL = 80;

/**
 * Finds the readings of a job sheet by their labels, so that rows which were inserted, moved or
 * deleted since the template was laid out do no harm.
 *
 * @param values - The sheet from A1
 * @returns Where each reading stands; `undefined` where the sheet is not one machine's page
 */
export function locateReadings(values: Block): JobSheet | undefined {
  const width = Math.max(0, ...values.map((row) => row.length));
  let best: JobSheet | undefined;
  for (let column = 0; column + 1 < width && column < 12; column++) {
    const found = inColumn(values, column);
    if (found.cells.size > (best?.cells.size ?? ENOUGH_LABELS - 1)) best = found;
  }
  return best;
}

function inColumn(values: Block, column: number): JobSheet {
  const cells = new Map<string, ReadingCell>();
  const proof = new Map<string, ReadingCell>();
  values.forEach((line, row) => {
    const label = line[column];
    if (typeof label !== "string" || label.length > LONGEST_LABEL || isBlank(label)) return;
    const match = matchLabel(label);
    if (!match) return;
    const id = match.entry.id;
    const place = { row, column: column + 1, label: label.trim() };
    if (!cells.has(id)) cells.set(id, place);
    else if (!proof.has(id)) proof.set(id, place);
  });
  return { cells, proof };
}

/** Reads located cells the way worksheet functions read a range of label, value and unit. */
export function readJobSheet(values: Block, cells: ReadonlyMap<string, ReadingCell>): JobSheetRead {
  const ids = [...cells.keys()];
  const places = [...cells.values()];
  const typed = new Map<string, Cell>();
  const block = places.map(({ row, column, label }, i) => {
    const value = values[row]?.[column];
    if (!isBlank(value)) typed.set(ids[i]!, value);
    return [label, value, values[row]?.[column + 1]];
  });
  const faults = new Map<string, Fault>();
  const read = jobFromCells(block);
  if (!read.ok) return { job: new Map(), typed, faults };
  for (const issue of read.value.issues) {
    if (issue.fault) faults.set(ids[issue.row]!, issue.fault);
  }
  return { job: read.value.job, typed, faults };
}

/** A job sheet as a list of jobs shows it. */
export interface JobSummary {
  readonly sheet: string;
  readonly machine: string;
  /** Day of the visit as the cell holds it. */
  readonly date: Cell;
  readonly jobNumber: string;
  readonly customer: string;
  readonly phone: string;
  readonly complaint: string;
}

/** Names of the sheets that are a machine's job, in the workbook's order. */
export async function jobSheets(workbook: Workbook): Promise<readonly string[]> {
  return (await jobList(workbook)).map(({ sheet }) => sheet);
}

/** What tells a job from the others, from what was typed into its sheet. */
export function summaryOf(sheet: string, typed: ReadonlyMap<string, Cell>): JobSummary {
  const text = (id: string) => String(typed.get(id) ?? "").trim();
  return {
    sheet,
    machine: text("machine-name"),
    date: typed.get("visit-date"),
    jobNumber: text("job-number"),
    customer: text("customer"),
    phone: text("customer-phone"),
    complaint: text("complaint"),
  };
}

/** The workbook's jobs, in its order. */
export async function jobList(workbook: Workbook): Promise<readonly JobSummary[]> {
  const names = await workbook.sheetNames();
  const found: JobSummary[] = [];
  for (const sheet of names) {
    const used = await workbook.usedArea(sheet);
    if (used.rows < ENOUGH_LABELS || used.columns < 2) continue;
    // A page shows what it is in its first rows; long lists are not read through.
    const head = { sheet, row: 0, column: 0, rows: Math.min(used.rows, 60), columns: Math.min(used.columns, 13) };
    const { values } = await workbook.read(head);
    const place = locateReadings(values);
    if (!place) continue;
    const { typed } = readJobSheet(values, place.cells);
    found.push(summaryOf(sheet, typed));
  }
  return found;
}
