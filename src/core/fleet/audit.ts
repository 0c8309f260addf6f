import { isBlank, type Block } from "../cell";
import { verdictOf, weighInPassing, type DiagnosisOptions, type Verdict } from "../diagnosis/diagnose";
import { bestCheckLabel } from "../diagnosis/next-check";
import { withPassingRows } from "../diagnosis/number-row";
import type { PartState } from "../judgement/types";
import { textIn } from "../readings/catalogue";
import { eachJobOfTable, mergeJobs, type CellIssue, type RowRead } from "../readings/from-cells";
import type { Job, Part } from "../readings/types";
import { faultMessage } from "../result";
import { daysUntilFlat } from "./days-until-flat";

/** What the audit says of one row of the fleet's table. */
export interface AuditRow {
  /** Place in the block, header row = 0. */
  readonly row: number;
  readonly machine: string;
  /** `not read` without a single reading, `not understood` where a cell cannot be read. */
  readonly state: PartState | "not read" | "not understood";
  readonly part: Part | "none" | "";
  readonly chance: number | undefined;
  readonly nextCheck: string;
  /** Days until it is not counted on to start [d]. */
  readonly days: number | undefined;
  readonly sentence: string;
  /** Date of the visit as it stands in the table, where it has one. */
  readonly date: string | undefined;
}

export interface Audit {
  readonly rows: readonly AuditRow[];
  /** Headers and cells that were not understood: nothing is dropped silently. */
  readonly issues: readonly CellIssue[];
}

export interface AuditOptions extends DiagnosisOptions {
  /** Machine data by machine name, in lower case; the row's own data goes before. */
  readonly machines?: ReadonlyMap<string, Job>;
}

/**
 * Goes through a fleet's table, a machine a row: what `VERDICT` says of each, the next check, the
 * days until it will not start.
 *
 * @param block - Cells, header row first; headers as the catalogue knows them
 */
export function auditTable(block: Block, options: AuditOptions = {}): Audit {
  const rows: AuditRow[] = [];
  const issues: CellIssue[] = [];
  for (const read of eachJobOfTable(block, rowsAlike(block))) {
    // What is said of the headers comes with every row: the first row's is enough.
    for (const issue of read.issues) if (issue.kind === "fault" || rows.length === 0) issues.push(issue);
    rows.push(auditRow(read, options));
  }
  rows.sort((a, b) => a.row - b.row);
  issues.sort((a, b) => a.row - b.row);
  return { rows, issues };
}

/** Rows with the same gaps one after another: what the weighing works out for one serves the next. */
function rowsAlike(block: Block): number[] {
  const alike = new Map<string, number[]>();
  for (let r = 1; r < block.length; r++) {
    let gaps = "";
    for (const cell of block[r]!) gaps += isBlank(cell) ? " " : "x";
    const others = alike.get(gaps);
    if (others) others.push(r);
    else alike.set(gaps, [r]);
  }
  return [...alike.values()].flat();
}

/** One row; the same computation as the worksheet's VERDICT and NEXTCHECK of the same cells. */
export function auditRow({ row, job: own, issues }: RowRead, options: AuditOptions = {}): AuditRow {
  const machine = textIn(own, "machine-name") ?? "";
  const data = options.machines?.get(machine.toLowerCase());
  const job = data ? mergeJobs(data, own) : own;
  const date = textIn(own, "visit-date");
  const bad = issues.find((issue) => issue.kind === "fault" && issue.fault);
  const judged = bad ? undefined : withPassingRows(() => judge(job, options));
  if (!judged) {
    const state = bad ? "not understood" : "not read";
    const sentence = bad?.fault ? faultMessage(bad.fault) : "Nothing was read.";
    return { row, machine, state, part: "", chance: undefined, nextCheck: "", days: undefined, sentence, date };
  }
  const { state, part, chance, nextCheck, sentence } = judged;
  return { row, machine, state, part, chance, nextCheck, days: daysUntilFlat(job), sentence, date };
}

function judge(job: Job, options: AuditOptions): (Verdict & Pick<AuditRow, "nextCheck">) | undefined {
  const weighed = weighInPassing(job, options);
  if (!weighed) return undefined;
  const verdict = verdictOf(weighed);
  const { part, state, chance, sentence } = verdict;
  return { part, state, chance, sentence, nextCheck: settled(verdict) ? "none" : (bestCheckLabel(weighed) ?? "none") };
}

function settled({ state }: Verdict): boolean {
  return state === "faulty" || state === "serviceable";
}
