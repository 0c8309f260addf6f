import { createWriteStream, type WriteStream } from "node:fs";
import { once } from "node:events";
import { stringify } from "csv-stringify/sync";
import { NOTICE_COLUMNS, TREND_COLUMNS, type HistoryCells } from "./history";
import {
  COMPLAINT_COLUMNS,
  complaintCells,
  complaintsOf,
  rankedRows,
  RESULT_COLUMNS,
  resultCells,
} from "./result-rows";
import type { PartFile } from "./part-file";
import { isDue, type Ordered, type Summary } from "./summary";

/** Writes lines with back pressure, so that a million rows do not pile up in memory. */
async function put(stream: WriteStream, text: string): Promise<void> {
  if (!stream.write(text)) await once(stream, "drain");
}

async function close(stream: WriteStream): Promise<void> {
  stream.end();
  await once(stream, "finish");
}

const csv = (cells: readonly (string | number)[]) => stringify([cells as (string | number)[]]);

/** Results as CSV; what was not understood goes into a file beside it. */
export async function writeCsv(part: PartFile, output: string, summary: Summary): Promise<readonly string[]> {
  const results = createWriteStream(output);
  await put(results, csv(RESULT_COLUMNS));
  for await (const ranked of rankedRows(part)) {
    summary.add(ranked);
    await put(results, csv(resultCells(ranked.row)));
  }
  await close(results);
  const beside = output.replace(/(?:\.csv)?$/iu, ".not-understood.csv");
  const complaints = createWriteStream(beside);
  await put(complaints, csv(COMPLAINT_COLUMNS));
  let count = 0;
  for await (const complaint of complaintsOf(part)) {
    count += 1;
    await put(complaints, csv(complaintCells(complaint)));
  }
  await close(complaints);
  return count > 0 ? [output, beside] : [output];
}

/** Results as one JSON object, written piece by piece. */
export async function writeJson(
  part: PartFile,
  output: string,
  summary: Summary,
  history: HistoryCells,
): Promise<readonly string[]> {
  const out = createWriteStream(output);
  let first = true;
  const item = async (value: unknown) => {
    await put(out, `${first ? "\n" : ",\n"}${JSON.stringify(value)}`);
    first = false;
  };
  await put(out, '{"rows":[');
  for await (const ranked of rankedRows(part)) {
    summary.add(ranked);
    await item(ranked.row);
  }
  await put(out, '],\n"notUnderstood":[');
  first = true;
  for await (const complaint of complaintsOf(part)) await item(complaint);
  for (const [name, columns, rows] of [
    ["noticed", NOTICE_COLUMNS, history.notices],
    ["trends", TREND_COLUMNS, history.trends],
  ] as const) {
    await put(out, `],\n"${name}":[`);
    first = true;
    for (const row of rows) await item(Object.fromEntries(columns.map((column, i) => [column, row[i]])));
  }
  await put(
    out,
    `],\n"summary":${JSON.stringify({ rows: summary.rows, states: Object.fromEntries(summary.counts), machines: summary.machines, machineStates: Object.fromEntries(summary.machineCounts), months: summary.monthRows(), worst: summary.worst })}}\n`,
  );
  await close(out);
  return [output];
}

/** The work that is due, worst first; a machine that came more than once is due by its latest visit. */
export async function writeDue(part: PartFile, output: string): Promise<number> {
  const due: Ordered[] = [];
  for await (const { row, latest } of rankedRows(part)) if (latest && isDue(row)) due.push(row);
  due.sort((a, b) => a.order - b.order);
  const out = createWriteStream(output);
  await put(out, csv(RESULT_COLUMNS));
  for (const row of due) await put(out, csv(resultCells(row)));
  await close(out);
  return due.length;
}
