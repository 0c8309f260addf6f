import { NOTICE_COLUMNS, TREND_COLUMNS, type Cells, type History } from "./history";
import type { PartFile } from "./part-file";
import { COMPLAINT_COLUMNS, complaintRows, rankedRows, RESULT_COLUMNS, resultCells } from "./result-rows";
import { Spool } from "./spool";
import { isDue, type Summary } from "./summary";
import { TextFile, writeBeside, writeTable } from "./text-file";

/** Results as CSV; what was not understood and what the history shows go into files beside it. */
export async function writeCsv(
  part: PartFile,
  output: string,
  summary: Summary,
  history: History,
): Promise<readonly string[]> {
  await writeTable(output, RESULT_COLUMNS, resultRows(part, summary));
  return [
    output,
    ...(await writeBeside(output, "not-understood", part.complaints, COMPLAINT_COLUMNS, complaintRows(part))),
    ...(await writeBeside(output, "noticed", history.noticeCount, NOTICE_COLUMNS, history.notices())),
    ...(await writeBeside(output, "trends", history.trendCount, TREND_COLUMNS, history.trends())),
  ];
}

async function* resultRows(part: PartFile, summary: Summary): AsyncGenerator<Cells> {
  for await (const ranked of rankedRows(part)) {
    summary.add(ranked);
    yield resultCells(ranked.row);
  }
}

/** Results as one JSON object, written piece by piece. */
export async function writeJson(
  part: PartFile,
  output: string,
  summary: Summary,
  history: History,
): Promise<readonly string[]> {
  const out = new TextFile(output);
  const list = async (name: string, values: AsyncIterable<unknown> | Iterable<unknown>) => {
    let mark = `"${name}":[\n`;
    for await (const value of values) {
      out.put(mark + JSON.stringify(value));
      mark = ",\n";
    }
    out.put(mark === ",\n" ? "],\n" : `${mark}],\n`);
  };
  out.put("{");
  await list("rows", summarized(part, summary));
  await list("notUnderstood", part.readComplaints());
  await list("noticed", named(NOTICE_COLUMNS, history.notices()));
  await list("trends", named(TREND_COLUMNS, history.trends()));
  out.put(
    `"summary":${JSON.stringify({
      rows: summary.rows,
      states: Object.fromEntries(summary.counts),
      machines: summary.machines,
      machineStates: Object.fromEntries(summary.machineCounts),
      months: summary.monthRows(),
      worst: summary.worst,
    })}}\n`,
  );
  out.close();
  return [output];
}

async function* summarized(part: PartFile, summary: Summary): AsyncGenerator<unknown> {
  for await (const ranked of rankedRows(part)) {
    summary.add(ranked);
    yield ranked.row;
  }
}

function* named(columns: readonly string[], rows: Iterable<Cells>): Generator<unknown> {
  for (const row of rows) yield Object.fromEntries(columns.map((column, i) => [column, row[i]]));
}

/** The work that is due, worst first; a machine that came more than once is due by its latest visit with readings. */
export async function writeDue(part: PartFile, output: string): Promise<number> {
  const due = new Spool<Cells>(`${output}.part`);
  try {
    for await (const { row, latest } of rankedRows(part))
      if (latest && isDue(row)) due.add(row.order, resultCells(row));
    await writeTable(output, RESULT_COLUMNS, due.inOrder());
    return due.length;
  } finally {
    due.remove();
  }
}
