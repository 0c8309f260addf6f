import { createWriteStream } from "node:fs";
import { finished } from "node:stream/promises";
import { stringify } from "csv-stringify/sync";
import { isoDate } from "../../core/fleet/dates";
import { FleetHistoryReader } from "../../core/fleet/history/fleet-history";
import type { MachineTrend } from "../../core/fleet/history/machine-trend";
import { isTotalsRow } from "../../core/fleet/table-shape";
import { quantityById } from "../../core/readings/catalogue";
import { readTables } from "../../hosts/table/read-tables";

export const NOTICE_COLUMNS = ["File", "Row", "Column", "Machine", "Recognised", "What"] as const;
export const TREND_COLUMNS = [
  "Machine",
  "Reading",
  "Since",
  "Visits",
  "Trend",
  "Change a year",
  "Low",
  "High",
  "Limit",
  "Crosses the limit",
  "Earliest",
  "Latest",
  "Allowed for",
] as const;

type Cells = readonly (string | number)[];

/** What a fleet's tables show as a history, as cells. */
export interface HistoryCells {
  readonly notices: readonly Cells[];
  readonly trends: readonly Cells[];
}

/** Reads the tables once more, whole: what is recognised in a history lies in no single row. */
export async function historyOf(files: readonly string[]): Promise<HistoryCells> {
  const reader = new FleetHistoryReader();
  for await (const { file, header, rows, firstRow, opens } of readTables(files)) {
    if (opens) reader.table(header, file);
    rows.forEach((row, i) => {
      if (!isTotalsRow(row)) reader.row(row, firstRow + i);
    });
  }
  const { notices, trends } = reader.finish();
  return {
    notices: notices.map((n) => [reader.fileOf(n), n.row, n.column, n.machine, n.kind, n.what]),
    trends: trends.map(trendCells),
  };
}

function trendCells({ machine, reading, since, anew, limit, trend }: MachineTrend): Cells {
  const number = (value: number | undefined) =>
    value !== undefined && Number.isFinite(value) ? Number(value.toPrecision(3)) : "";
  const day = (value: number | undefined) =>
    value === undefined ? "" : value <= LAST_DAY ? isoDate(value) : "after 2099";
  return [
    machine,
    quantityById(reading).label,
    isoDate(since),
    trend.visits,
    trend.state,
    number(trend.perYear),
    number(trend.perYearLow),
    number(trend.perYearHigh),
    number(limit),
    day(trend.crosses),
    day(trend.crossesEarliest),
    day(trend.crossesLatest),
    [anew ? "visits since the last new level" : "", trend.allowedFor].filter(Boolean).join("; "),
  ];
}

/** 2099-12-31 as a worksheet day. */
const LAST_DAY = 73050;

/** The history as text tables beside the results; a file only where there is something in it. */
export async function writeHistoryCsv(history: HistoryCells, output: string): Promise<readonly string[]> {
  const written: string[] = [];
  for (const [name, columns, rows] of [
    ["noticed", NOTICE_COLUMNS, history.notices],
    ["trends", TREND_COLUMNS, history.trends],
  ] as const) {
    if (rows.length === 0) continue;
    const file = output.replace(/(?:\.csv)?$/iu, `.${name}.csv`);
    const out = createWriteStream(file);
    for (const row of [columns, ...rows]) out.write(stringify([row as (string | number)[]]));
    out.end();
    await finished(out);
    written.push(file);
  }
  return written;
}
