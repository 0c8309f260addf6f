import { isBlank, type Block, type Cell } from "../cell";
import { andThen, ok, type Fault, type Result } from "../result";
import { cannotTell, layoutOf } from "./job-layout";
import { entryOf } from "./catalogue";
import { atSecondSpeed, speedOf } from "./label-speed";
import { matchLabel, type LabelMatch } from "./match";
import { parseEntry } from "./parse";
import type { Job, Measured } from "./types";

/** What stood in the way of one cell: nothing is dropped without being named. */
export interface CellIssue {
  /** Zero-based, within the block. */
  readonly row: number;
  readonly column: number;
  readonly kind: "fault" | "unknown label" | "doubled label";
  /** Label or header as it stands. */
  readonly label: string;
  readonly fault?: Fault;
}

export interface JobRead {
  readonly job: Job;
  readonly issues: readonly CellIssue[];
}

/** A job of a table; `row` is its place in the block, header row = 0. */
export interface RowRead extends JobRead {
  readonly row: number;
}

/**
 * Reads one job from cells: two columns (label or id, value; a third column may hold a unit), or a
 * header row with one row below it. Order does not matter; blank values are simply not read; rows
 * above the first label, and columns before it, may hold anything.
 *
 * @param block - Cells of the range
 * @returns The job and every cell that could not be used; `not-understood` where no label is known,
 *   `shape` where it cannot be told which label goes with which value
 */
export function jobFromCells(block: Block): Result<JobRead> {
  if (block.every((row) => row.every(isBlank))) return ok({ job: new Map(), issues: [] });
  return andThen(layoutOf(block), ({ list, table }) => {
    if (table === undefined) return ok(fromList(block, list));
    if (list === undefined) return ok(fromHeaderRow(block, table));
    return onlyReading(fromList(block, list), fromHeaderRow(block, table));
  });
}

/** Of a list and a table of the same cells, the one that makes sense. */
function onlyReading(list: JobRead, table: JobRead): Result<JobRead> {
  const faults = ({ issues }: JobRead) => issues.filter((issue) => issue.kind === "fault").length;
  const toTable = faults(list) - faults(table);
  if (toTable !== 0) return ok(toTable > 0 ? table : list);
  if (list.job.size > 0 && table.job.size > 0) return cannotTell("cells that read both across and down");
  return ok(table.job.size > 0 ? table : list);
}

/** Reads a table, header row first: a job for every row below that is not blank. */
export function jobsFromTable(block: Block): readonly RowRead[] {
  return [...eachJobOfTable(block)];
}

/**
 * The same, one job at a time: a long table's jobs need not all be held at once.
 *
 * @param order - Rows in the order in which they are wanted; as they stand where not given
 */
export function* eachJobOfTable(block: Block, order: Iterable<number> = rowsOf(block)): Generator<RowRead> {
  const headers = headersOf(block[0] ?? []);
  const headerIssues: CellIssue[] = [];
  const seen = new Set<string>();
  headers.forEach((match, column) => {
    const label = String(block[0]![column] ?? "").trim();
    if (label === "") return;
    if (!match) headerIssues.push({ row: 0, column, kind: "unknown label", label });
    else if (seen.has(match.entry.id)) headerIssues.push({ row: 0, column, kind: "doubled label", label });
    else seen.add(match.entry.id);
  });
  const doubled = new Set(headerIssues.filter((i) => i.kind === "doubled label").map((i) => i.column));
  const told = headers.filter((match, column) => match?.rpm !== undefined && !doubled.has(column)) as LabelMatch[];
  for (const r of order) {
    const row = block[r]!;
    if (row.every(isBlank)) continue;
    const job = new Map<string, Measured>();
    const issues: CellIssue[] = [...headerIssues];
    for (let column = 0; column < headers.length; column++) {
      const match = headers[column];
      if (match && !doubled.has(column)) put(job, issues, match, row[column], match.unit, r, column);
    }
    tellSpeeds(job, told);
    yield { row: r, job, issues };
  }
}

function* rowsOf(block: Block): Generator<number> {
  for (let r = 1; r < block.length; r++) yield r;
}

const headersOf = (row: readonly Cell[]) =>
  atSecondSpeeds(row.map((cell) => (isBlank(cell) ? undefined : matchLabel(String(cell)))));

/** Of two columns of the same no-load reading the later one, where it names another speed, is at the second speed. */
export function atSecondSpeeds(columns: readonly (LabelMatch | undefined)[]): readonly (LabelMatch | undefined)[] {
  const seen = new Map<string, number | undefined>();
  return columns.map((match) => {
    if (!match) return undefined;
    const { entry, rpm } = match;
    const first = seen.get(entry.id);
    const second = first !== undefined && rpm !== undefined && rpm !== first && entryOf(atSecondSpeed(entry.id));
    if (second) return { ...match, entry: second };
    if (!seen.has(entry.id)) seen.set(entry.id, rpm);
    return match;
  });
}

/** Speeds that stand in the labels of readings alone; where labels disagree, none is known. */
function tellSpeeds(job: Map<string, Measured>, labels: readonly LabelMatch[]): void {
  const speeds = new Map<string, number>();
  for (const { entry, rpm } of labels) {
    const id = job.has(entry.id) ? speedOf(entry, rpm!) : undefined;
    if (id !== undefined && !job.has(id))
      speeds.set(id, speeds.get(id) === undefined || speeds.get(id) === rpm ? rpm! : Number.NaN);
  }
  for (const [id, value] of speeds) if (value > 0) job.set(id, { kind: "number", value, told: true });
}

function fromHeaderRow(block: Block, header: number): JobRead {
  const read = jobsFromTable(block.slice(header))[0];
  if (!read) return { job: new Map(), issues: [] };
  return { job: read.job, issues: read.issues.map((issue) => ({ ...issue, row: issue.row + header })) };
}

function fromList(block: Block, labels: number): JobRead {
  const job = new Map<string, Measured>();
  const issues: CellIssue[] = [];
  const seen = new Set<string>();
  const told: LabelMatch[] = [];
  block.forEach((row, r) => {
    const [labelCell, value, unitCell] = labels === 0 ? row : row.slice(labels);
    // A row without a value is a section title or a reading not taken.
    if (isBlank(labelCell) || isBlank(value)) return;
    const label = String(labelCell).trim();
    const match = matchLabel(label);
    if (!match) {
      issues.push({ row: r, column: labels, kind: "unknown label", label });
    } else if (seen.has(match.entry.id)) {
      issues.push({ row: r, column: labels, kind: "doubled label", label });
    } else {
      seen.add(match.entry.id);
      const unit = match.unit ?? (typeof unitCell === "string" ? unitCell : undefined);
      put(job, issues, match, value, unit, r, labels + 1);
      if (match.rpm !== undefined) told.push(match);
    }
  });
  tellSpeeds(job, told);
  return { job, issues };
}

function put(
  job: Map<string, Measured>,
  issues: CellIssue[],
  { entry }: LabelMatch,
  cell: Cell,
  unit: string | undefined,
  row: number,
  column: number,
): void {
  // A unit beside the value or in its header goes with bare numbers only, and only if it fits.
  const other = entry.kind === "quantity" && unit !== entry.unit;
  const withUnit = other && unit && isBareNumber(cell) ? parseEntry(`${cell} ${unit}`, entry) : undefined;
  const parsed = withUnit?.ok ? withUnit : parseEntry(cell, entry);
  if (!parsed.ok) issues.push({ row, column, kind: "fault", label: entry.label, fault: parsed.fault });
  else if (parsed.value !== null) job.set(entry.id, dropWrittenStep(parsed.value, typeof cell === "number"));
}

/** A number without a unit: as a number cell, or as text, which all cells of a text table are. */
export function isBareNumber(cell: Cell): boolean {
  return typeof cell === "number" || (typeof cell === "string" && /^\s*[+−-]?(?:\d[\d.,]*|[.,]\d+)\s*$/u.test(cell));
}

/** The last digit of a number cell is the host's, not the meter's. */
function dropWrittenStep(measured: Measured, fromNumber: boolean): Measured {
  if (!fromNumber || measured.kind !== "number") return measured;
  return { kind: "number", value: measured.value };
}

/** Machine data and readings together; what the readings say of the machine wins, but for what a label alone tells. */
export function mergeJobs(...jobs: readonly Job[]): Job {
  const merged = new Map(jobs[0]);
  for (const job of jobs.slice(1))
    for (const [id, measured] of job) if (!("told" in measured && merged.has(id))) merged.set(id, measured);
  return merged;
}
