import { statSync } from "node:fs";
import { availableParallelism } from "node:os";
import path from "node:path";
import { IN_ORDER_BEFOREHAND } from "../core/diagnosis/starting-chances";
import { optionsFromCells } from "../core/diagnosis/to-cells";
import { machinesFromCells } from "../core/fleet/audit-cells";
import { faultMessage } from "../core/result";
import { readTables } from "../hosts/table/read-tables";
import { readArguments } from "./arguments";
import { START } from "../hosts/table/table-chunk";
import type { Complaint } from "./audit/audit-chunk";
import { dataTable, saidOf, unmatched } from "./audit/data-table";
import { inputFiles } from "./audit/input-files";
import { PartFile } from "./audit/part-file";
import { History } from "./audit/history";
import { auditInOrder } from "./audit/pool";
import { Progress } from "./audit/progress";
import { ROWS_ABOUT, rowsAbout } from "./audit/rows-about";
import { STATES, Summary } from "./audit/summary";
import { writeCsv, writeDue, writeJson } from "./audit/write-text";
import { MOST_ROWS, writeWorkbook } from "./audit/write-workbook";
import { InputFault, UsageFault, type Command, type ExitCode, type Io } from "./command";
import { mustBeWritable } from "./output-file";
import { asInputFault } from "./workbook-fault";

/** `chargewright audit FILE -o OUT`: the verdict on every machine of a fleet's table. */
export const auditCommand: Command = {
  help: [
    "Usage: chargewright audit FILE|FOLDER -o OUT [options]",
    "",
    "Goes through a fleet's tables, a machine a row: part, state, chance, next check, days until the",
    "battery is flat, and the order in which to bring machines in. Headers may stand in any order and",
    "wording that the readings catalogue knows. What is not understood is listed by row and column.",
    "Where machines come more than once, their history is looked at: doubled and renamed machines,",
    "mixed units, a changed meter, storage and replaced batteries are named, never mended silently,",
    "and what fades gets a trend since the last new battery.",
    "",
    "FILE is .csv, .tsv, .txt, .xlsx or .parquet; a FOLDER stands for all of these in it. Left out there,",
    "and named, are results of earlier audits, what is no table, spreadsheets of other kinds and folders.",
    "",
    "  -o, --output OUT     .xlsx (summary with charts, results, what was noticed and not understood; up",
    "                       to 200,000 rows), .csv (the lists in files beside it) or .json",
    "  --machines FILE      machine data by machine name, where the table does not hold it",
    "  --known-good FILE    known-good parts, a part a row",
    "  --in-order SHARE     share of machines that are in order before anything is read, such as 0.9, where the",
    "                       visits are routine; without it each row counts as one that came with a complaint",
    "  --due FILE.csv       also write the work that is due, worst first",
    "  --threads N          threads to use (as many as the computer has)",
    "  --queue ADDRESS      hand the rows to workers at a queue server (see: chargewright work --help)",
    "  --force              replace OUT and the work that is due where they exist",
    "",
    "A run that was stopped goes on where it ended when it is started again with the same files.",
  ].join("\n"),

  async run(args, io) {
    const { options, operands } = readArguments(args, {
      output: { type: "string", short: "o" },
      machines: { type: "string" },
      "known-good": { type: "string" },
      "in-order": { type: "string" },
      due: { type: "string" },
      threads: { type: "string" },
      queue: { type: "string" },
      force: { type: "boolean" },
    });
    if (operands.length !== 1) throw new UsageFault("name one file or folder, as in: audit fleet.csv -o result.xlsx.");
    const output = options.output;
    if (output === undefined) throw new UsageFault("say where the results go, as in: -o result.xlsx.");
    const kind = path.extname(output).toLowerCase();
    if (![".xlsx", ".csv", ".json"].includes(kind)) throw new UsageFault(`"${output}" is none of .xlsx, .csv, .json.`);
    for (const file of [output, options.due]) {
      if (file === undefined) continue;
      if (exists(file) && !options.force)
        throw new InputFault(`"${file}" is there already; choose another name, or add --force to replace it.`);
      mustBeWritable(file);
    }
    const threads = options.threads === undefined ? availableParallelism() : Number(options.threads);
    if (!Number.isInteger(threads) || threads < 1 || threads > 64)
      throw new UsageFault(`--threads ${options.threads}: a whole number from 1 to 64.`);
    try {
      return await audit(
        operands[0]!,
        output,
        kind,
        {
          machines: options.machines,
          knownGood: options["known-good"],
          inOrder: options["in-order"],
          due: options.due,
          queue: options.queue,
          threads,
        },
        io,
      );
    } catch (error) {
      throw asInputFault(error);
    }
  },
};

interface Wishes {
  readonly machines: string | undefined;
  readonly knownGood: string | undefined;
  readonly inOrder: string | undefined;
  readonly due: string | undefined;
  readonly queue: string | undefined;
  readonly threads: number;
}

async function audit(input: string, output: string, kind: string, wishes: Wishes, io: Io): Promise<ExitCode> {
  const outputs = [output, wishes.due].filter((file) => file !== undefined);
  const { files, complaints, results } = await inputFiles(input, outputs);
  for (const { file, what } of complaints) io.complain(`"${file}": ${what}.`);
  if (results.length > 0) io.complain(`Left out as results of earlier audits: ${results.join(", ")}.`);
  const [machineData, knownGood] = [await dataTable(wishes.machines), await dataTable(wishes.knownGood)];
  const tables = {
    machines: machineData.cells,
    knownGood: knownGood.cells,
    settings: [[IN_ORDER_BEFOREHAND, wishes.inOrder ?? ""]],
  };
  const known = optionsFromCells(tables.knownGood, tables.settings);
  if (!known.ok) throw new InputFault(faultMessage(known.fault));
  const options = { ...known.value, machines: machinesFromCells(tables.machines) };

  if (kind === ".xlsx") {
    const rows = await rowsAbout(files);
    if (rows > MOST_ROWS + ROWS_ABOUT) throw tooLong(`about ${rows}`);
  }
  const part = new PartFile(output, signature(files, wishes));
  const from = part.open();
  const beforehand = [...complaints, ...machineData.complaints, ...knownGood.complaints];
  if (from === START && beforehand.length > 0) part.add({ rows: [], complaints: beforehand }, START);
  if (part.rows > 0) io.complain(`Going on after ${part.rows} rows that an earlier run has done.`);
  const progress = new Progress(io, files, from);
  const chunks = readTables(files, from);
  const audited =
    wishes.queue === undefined
      ? auditInOrder(chunks, wishes.threads, options)
      : (await import("./queue/audit-on-queue")).auditOnQueue(
          chunks,
          wishes.queue,
          signature(files, wishes),
          tables,
          io,
        );
  for await (const { chunk, result } of audited) {
    part.add(result, chunk.next);
    if (kind === ".xlsx" && part.rows > MOST_ROWS) {
      part.close();
      part.remove();
      throw tooLong(`more than ${MOST_ROWS}`);
    }
    progress.at(chunk.next, part.rows);
  }
  part.close();
  progress.end();

  const summary = new Summary();
  const history = new History(output);
  let written: readonly string[];
  try {
    await history.read(files);
    written =
      kind === ".xlsx"
        ? await writeWorkbook(part, output, summary, history, basisOf(wishes), new Date())
        : kind === ".csv"
          ? await writeCsv(part, output, summary, history)
          : await writeJson(part, output, summary, history);
  } finally {
    history.remove();
  }
  if (wishes.due !== undefined) io.out(`${await writeDue(part, wishes.due)} machines due: ${wishes.due}`);
  const { unused, whole } = await notUsed(part);
  const apart = await unmatched(part, options.machines);
  part.remove();
  for (const { file, what } of whole)
    if (!complaints.some((said) => said.file === file)) io.complain(`"${file}": ${what}.`);
  if (unused.length > 0)
    io.complain(`${unused.length === 1 ? "This column was" : "These columns were"} not used: ${unused.join(", ")}.`);
  for (const sentence of [...saidOf(beforehand), ...apart]) io.complain(sentence);
  io.out(
    `${summary.rows} ${summary.rows === 1 ? "row" : "rows"}: ${STATES.map((state) => `${summary.counts.get(state) ?? 0} ${state}`).join(", ")}`,
  );
  // The counts above mean little to whoever takes routine visits for what they are.
  if (wishes.inOrder === undefined) io.complain(basisOf(wishes));
  for (const sentence of history.ofFleet) io.complain(sentence);
  for (const file of written) io.out(file);
  return 0;
}

/** What did not count as a whole, which whoever meant it must see at once: columns that are no readings, and sheets. */
async function notUsed(part: PartFile): Promise<{ unused: readonly string[]; whole: readonly Complaint[] }> {
  const columns = new Set<string>();
  const whole: Complaint[] = [];
  for await (const complaint of part.readComplaints()) {
    if (complaint.row !== 0) continue;
    if (complaint.column === "") whole.push(complaint);
    else columns.add(complaint.column);
  }
  return { unused: [...columns], whole };
}

/** What the states go by, said where they are read. */
function basisOf({ inOrder }: Wishes): string {
  return inOrder === undefined
    ? "Each row counts as a machine that came with a complaint; audit routine visits with --in-order 0.9, say."
    : `Routine visits: ${inOrder} of the machines were taken to be in order before anything was read.`;
}

function tooLong(rows: string): InputFault {
  return new InputFault(
    `${rows} rows, and a workbook of results takes ${MOST_ROWS} at most; write a .csv or .json instead, as in: -o results.csv.`,
  );
}

/** The same files, unchanged, audited against the same data: only then does a run go on. */
function signature(files: readonly string[], wishes: Wishes): string {
  const read = [...files, wishes.machines, wishes.knownGood]
    .filter((file) => file !== undefined)
    .map((file) => {
      const { size, mtimeMs } = statSync(file);
      return `${path.resolve(file)} ${size} ${mtimeMs}`;
    });
  return [...read, ...(wishes.inOrder === undefined ? [] : [`in order ${wishes.inOrder}`])].join("\n");
}

function exists(file: string): boolean {
  return statSync(file, { throwIfNoEntry: false }) !== undefined;
}
