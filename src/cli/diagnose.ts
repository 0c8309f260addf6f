import { readFileSync } from "node:fs";
import path from "node:path";
import { faultMessage } from "../core/result";
import { checkOf } from "../core/readings/catalogue";
import { CAUTIONS } from "../core/readings/cautions";
import { jobsFromFile, type FiledJob } from "../core/readings/from-job-file";
import { percent } from "../core/diagnosis/diagnose";
import { explain, whyLines, type Explained } from "../core/diagnosis/why";
import { readArguments } from "./arguments";
import { InputFault, UsageFault, type Command } from "./command";
import { jobsOfWorkbook, type WorkbookJobs } from "./workbook-jobs";

/** `chargewright diagnose FILE [--json]`: the verdict on every job of a workbook or a job file. */
export const diagnoseCommand: Command = {
  help: [
    "Usage: chargewright diagnose FILE [--json] [--known-good FILE]",
    "",
    "Weighs the readings of every job in FILE and prints the part at fault, how sure that is, what",
    "speaks for and against it, and the check that would settle it at the least cost, with what is",
    "dangerous in it.",
    "",
    "  --json              print one array: per job the chances of faults, the state of each part,",
    "                      the evidence, contradicting readings and the next check",
    "  --known-good FILE   readings of known-good parts of the same number, in the same format",
    "",
    "FILE is a workbook (.xlsx) with a job sheet for each machine, or a job file (JSON).",
    'A job file holds a list of jobs, or an object with "cases": […]; each job has a "caseId" and "readings"',
    '(and "spec" for the machine data), or "values" by the ids of the readings catalogue.',
    "What a file says about the true fault is never looked at.",
  ].join("\n"),

  async run(args, io) {
    const { options, operands } = readArguments(args, { json: { type: "boolean" }, "known-good": { type: "string" } });
    if (operands.length === 0) throw new UsageFault("name the workbook or job file, as in: diagnose job.xlsx.");
    if (operands.length > 1) throw new UsageFault(`one file at a time; ${operands.length} were given.`);
    const { jobs, complaints } = jobsIn(operands[0]!);
    for (const complaint of complaints) io.complain(complaint);
    const knownFile = options["known-good"];
    const knownGood = knownFile === undefined ? [] : readJobs(knownFile).map(({ job }) => job);
    const answers = jobs.map(({ id, job }) => ({ id, answer: explain(job, { knownGood }) }));
    if (options.json) {
      io.out(
        JSON.stringify(
          answers.map(({ id, answer }) => toJson(id, answer)),
          null,
          1,
        ),
      );
    } else {
      for (const { id, answer } of answers) for (const line of toLines(id, answer)) io.out(line);
    }
    return 0;
  },
};

function jobsIn(file: string): WorkbookJobs {
  const kind = path.extname(file).toLowerCase();
  if (kind === ".xlsx") return jobsOfWorkbook(file);
  if ([".csv", ".tsv", ".parquet"].includes(kind))
    throw new InputFault(`"${file}" is a table of machines; use: audit ${file} -o result.xlsx.`);
  const jobs = readJobs(file);
  const complaints = jobs.flatMap(({ id, unknown = [] }) =>
    unknown.length === 0 ? [] : [`${id}: not a reading of the job format, and left out: ${unknown.join(", ")}.`],
  );
  return { jobs, complaints: jobs.length === 0 ? [`"${file}" holds no job.`] : complaints };
}

/** Reads a job file; every way in which that can go wrong has its own sentence. */
export function readJobs(path: string): readonly FiledJob[] {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") throw new InputFault(`there is no file "${path}"; check the name and the folder.`);
    if (code === "EISDIR") throw new InputFault(`"${path}" is a folder; name the job file in it.`);
    throw new InputFault(`"${path}" cannot be read (${code ?? "unknown reason"}).`);
  }
  if (text.trim() === "") throw new InputFault(`"${path}" is empty; a job file holds at least one job.`);
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/u, ""));
  } catch {
    throw new InputFault(
      `"${path}" is not complete JSON${truncated(text) ? " (it breaks off at its end, as after an interrupted download)" : ""}; get the file again or correct it.`,
    );
  }
  const jobs = jobsFromFile(json);
  if (!jobs.ok) throw new InputFault(`"${path}": ${faultMessage(jobs.fault)}`);
  return jobs.value;
}

function truncated(text: string): boolean {
  const count = (mark: RegExp) => (text.match(mark) ?? []).length;
  return count(/[[{]/gu) > count(/[\]}]/gu);
}

/** Words of the job format: its ids have underscores. */
const underscored = (id: string) => id.replaceAll("-", "_");
const rounded = (chance: number) => Number(chance.toPrecision(6));

function toJson(caseId: string, answer: Explained | undefined): Record<string, unknown> {
  if (!answer) return { caseId, faults: {}, parts: {}, verdict: null };
  const { diagnosis, evidence, nextChecks } = answer;
  return {
    caseId,
    faults: Object.fromEntries(diagnosis.faults.map((f) => [underscored(f.fault), rounded(f.chance)])),
    parts: Object.fromEntries(
      diagnosis.parts.map((p) => [
        underscored(p.part),
        { state: p.state, chance: rounded(p.chance), sentence: p.sentence },
      ]),
    ),
    verdict: diagnosis.verdict,
    contradictions: diagnosis.contradictions.map(({ kind, readings, words }) => ({ kind, readings, words })),
    evidence: evidence.map((e) => ({
      fault: underscored(e.fault),
      for: e.for.map((i) => i.words),
      against: e.against.map((i) => i.words),
    })),
    nextCheck: nextChecks[0] ? { ...nextChecks[0], cautions: cautionsOf(answer) } : null,
  };
}

function toLines(caseId: string, answer: Explained | undefined): readonly string[] {
  if (!answer) return [`${caseId}: no readings, no verdict.`, ""];
  const lines = [`${caseId}: ${answer.diagnosis.verdict.sentence}`];
  const others = answer.diagnosis.faults.slice(0, 4).filter((f) => f.chance >= 0.01);
  lines.push(`  causes: ${others.map((f) => `${f.label} ${percent(f.chance)}`).join(", ")}`);
  for (const line of whyLines(answer).slice(1)) {
    lines.push(`  ${line.about}: ${line.words}`);
    if (line.about === "next check") for (const caution of cautionsOf(answer)) lines.push(`  take care: ${caution}`);
  }
  return [...lines, ""];
}

/** What is dangerous in the check that is asked for next. */
function cautionsOf({ nextChecks }: Explained): readonly string[] {
  return (checkOf(nextChecks[0]?.check ?? "")?.cautions ?? []).map((id) => CAUTIONS[id]);
}
