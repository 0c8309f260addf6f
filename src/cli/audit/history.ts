import { isoDate } from "../../core/fleet/dates";
import { FleetHistoryReader } from "../../core/fleet/history/fleet-history";
import type { MachineTrend } from "../../core/fleet/history/machine-trend";
import { leftOutAs } from "../../core/fleet/table-shape";
import { quantityById } from "../../core/readings/catalogue";
import { readTables } from "../../hosts/table/read-tables";
import { Spool } from "./spool";
import { sentenceCase } from "../../core/sentence-case";

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

export type Cells = readonly (string | number)[];

/** What a fleet's tables show as a history, set aside on disk as cells until it is written. */
export class History {
  private readonly noticed: Spool<Cells>;
  private readonly followed: Spool<Cells>;
  /** What the whole fleet shows, in sentences: whoever reads the states must know it. */
  readonly ofFleet: string[] = [];

  /** @param output - Its files stand beside this one while they are needed */
  constructor(output: string) {
    this.noticed = new Spool(`${output}.noticed.part`);
    this.followed = new Spool(`${output}.trends.part`);
  }

  /** Reads the tables once more, whole: what is recognised in a history lies in no single row. */
  async read(files: readonly string[]): Promise<void> {
    const reader = new FleetHistoryReader();
    for await (const { file, header, rows, firstRow, opens, dateOrder } of readTables(files)) {
      if (opens) reader.table(header, file, dateOrder);
      rows.forEach((row, i) => {
        if (!leftOutAs(row, header)) reader.row(row, firstRow + i);
      });
    }
    reader.finish(
      (notice) => {
        const { file, row, column, machine, kind, what, ofFleet } = notice;
        this.noticed.add(file * 2 ** 32 + row, [reader.fileOf(notice), row, column, machine, kind, what]);
        if (ofFleet && kind === "changed meter")
          this.ofFleet.push(`${sentenceCase(what)} What is suspect from that day on may be the meter's doing.`);
        else if (ofFleet) this.ofFleet.push(`${column}: ${what}`);
      },
      (trend) => this.followed.add(0, trendCells(trend)),
    );
  }

  get noticeCount(): number {
    return this.noticed.length;
  }

  get trendCount(): number {
    return this.followed.length;
  }

  /** By file, row and column. */
  *notices(): Generator<Cells> {
    let ofRow: Cells[] = [];
    for (const cells of this.noticed.inOrder()) {
      if (ofRow.length > 0 && (ofRow[0]![0] !== cells[0] || ofRow[0]![1] !== cells[1])) {
        yield* ofRow.sort(byColumn);
        ofRow = [];
      }
      ofRow.push(cells);
    }
    yield* ofRow.sort(byColumn);
  }

  /** Machine by machine. */
  trends(): Generator<Cells> {
    return this.followed.inOrder();
  }

  remove(): void {
    this.noticed.remove();
    this.followed.remove();
  }
}

function byColumn([, , a]: Cells, [, , b]: Cells): number {
  return a! < b! ? -1 : a! > b! ? 1 : 0;
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
    // Both readings must stay above their limits; a blank would hide the machines that are worst off.
    limit !== undefined && trend.level < limit ? "below it already" : day(trend.crosses),
    day(trend.crossesEarliest),
    day(trend.crossesLatest),
    [anew ? "visits since the last new level" : "", trend.allowedFor].filter(Boolean).join("; "),
  ];
}

/** 2099-12-31 as a worksheet day. */
const LAST_DAY = 73050;
