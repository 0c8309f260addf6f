import { isBlank, type Block, type Cell } from "../cell";
import { jobFromCells, jobsFromTable, mergeJobs, type JobRead } from "../readings/from-cells";
import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { once, sameBlock } from "../same-again";
import { diagnose, type DiagnosisOptions } from "./diagnose";
import { evidenceFor, itemWords, type EvidenceItem } from "./evidence";
import { faultOf, faultsOfKey, type FaultKey } from "./faults";
import { nextChecks } from "./next-check";
import { settingsFromCells } from "./settings-from-cells";
import { startingFrom } from "./starting-chances";
import { explain, whyLines } from "./why";

/** Verdicts as blocks of cells: what the worksheet functions spill. */

export interface Given {
  readonly readings: Block;
  /** Machine data, where it stands apart from the readings. */
  readonly machine: Block;
  /** Known-good parts: a header row with a part a row, or one part as a list. */
  readonly knownGood: Block;
  /** Settings: two columns, name and value. */
  readonly settings: Block;
}

type Rows = readonly (readonly Cell[])[];
const NOT_READ: Rows = [["not read"]];

/** One row: part, state, chance, sentence. */
export function verdictCells(given: Given): Result<Rows> {
  return withJob(given, (job, options) => {
    const verdict = diagnose(job, options)?.verdict;
    return verdict ? [[verdict.part, verdict.state, verdict.chance, verdict.sentence]] : NOT_READ;
  });
}

/** Header-less rows: fault, part, chance, for, against; at most `most`. */
export function causeCells(given: Given, most = 5): Result<Rows> {
  return withJob(given, (job, options) => {
    const diagnosis = diagnose(job, options);
    if (!diagnosis) return NOT_READ;
    const leading = diagnosis.faults.slice(0, most);
    const evidence = evidenceFor(
      job,
      leading.map((f) => f.fault),
      options,
    );
    return leading.map((f, i) => [
      f.label,
      partWords(f.fault),
      f.chance,
      sentence(evidence[i]!.for),
      sentence(evidence[i]!.against),
    ]);
  });
}

/**
 * Rows: check, minutes, what each outcome would mean; the best first. Of a job in which nothing was read yet, the
 * first check; a blank range is no job.
 */
export function nextCheckCells(given: Given): Result<Rows> {
  return withJob(given, (job, options) => {
    if (given.readings.every((row) => row.every(isBlank))) return NOT_READ;
    const best = nextChecks(job, options)[0];
    return best ? [[best.label, best.minutes, best.why]] : [["none", 0, "No further check could change this verdict."]];
  });
}

/** Rows: what the line is about, the sentence. */
export function whyCells(given: Given): Result<Rows> {
  return withJob(given, (job, options) => {
    const answer = explain(job, options);
    return answer ? whyLines(answer).map((line) => [line.about, line.words]) : NOT_READ;
  });
}

function partWords(fault: FaultKey): string {
  const parts = [...new Set(faultsOfKey(fault).map((id) => faultOf(id).part ?? "none"))];
  return parts.join(" and ");
}

function sentence(items: readonly EvidenceItem[]): string {
  return items.slice(0, 3).map(itemWords).join(". ");
}

function withJob(given: Given, answer: (job: Job, options: DiagnosisOptions) => Rows): Result<Rows> {
  return andThen(jobGiven(given), ({ job, options }) => ok(answer(job, options)));
}

/** Verdict, causes, next check and why of one sheet are asked of the same cells. */
const jobGiven = once(
  readGiven,
  (one, other) =>
    sameBlock(one.readings, other.readings) &&
    sameBlock(one.machine, other.machine) &&
    sameBlock(one.knownGood, other.knownGood) &&
    sameBlock(one.settings, other.settings),
);

function readGiven(given: Given): Result<{ readonly job: Job; readonly options: DiagnosisOptions }> {
  const readings = jobFromCells(given.readings);
  if (!readings.ok) return readings;
  const machine = told("machine", jobFromCells(given.machine));
  if (!machine.ok) return machine;
  const bad = [...readings.value.issues, ...machine.value.issues].find(
    (issue) => issue.kind === "fault" && issue.fault,
  );
  if (bad?.fault) return fail(bad.fault);
  const options = optionsFromCells(given.knownGood, given.settings);
  if (!options.ok) return options;
  // What was read of this machine wins over the shop's data of its model.
  return ok({ job: mergeJobs(machine.value.job, readings.value.job), options: options.value });
}

/** What cannot be read as readings is told by the argument that it was given as. */
function told(what: string, read: Result<JobRead>): Result<JobRead> {
  return read.ok || read.fault.what !== "readings" ? read : fail({ ...read.fault, what });
}

/** Known-good parts and settings as their ranges hold them. */
export function optionsFromCells(knownGood: Block, settings: Block): Result<DiagnosisOptions> {
  const known = knownGoodJobs(knownGood);
  if (!known.ok) return known;
  const options: { -readonly [K in keyof DiagnosisOptions]: DiagnosisOptions[K] } = {};
  if (known.value.length > 0) options.knownGood = known.value;
  const values = settingsFromCells(settings);
  if (!values.ok) return values;
  const { faulty, serviceable, inOrder, proven } = values.value;
  if (faulty !== undefined || serviceable !== undefined)
    options.thresholds = { faulty: faulty ?? 0.9, serviceable: serviceable ?? 0.05 };
  options.startingChances = startingFrom(proven, inOrder);
  return ok(options);
}

function knownGoodJobs(block: Block): Result<readonly Job[]> {
  if (block.length > 2 && (block[0]?.length ?? 0) > 3)
    return ok(
      jobsFromTable(block)
        .map(({ job }) => job)
        .filter((job) => job.size > 0),
    );
  const one = told("knownGood", jobFromCells(block));
  if (!one.ok) return one;
  return ok(one.value.job.size > 0 ? [one.value.job] : []);
}
