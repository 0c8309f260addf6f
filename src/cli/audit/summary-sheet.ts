import type { Area, CellWrite, ChartPlan, Step } from "../../workbook/port";
import { linesOf } from "../../workbook/text-lines";
import { STATES, type Ordered, type Summary } from "./summary";

const SHEET = "Summary";
const WORST_COLUMNS = ["Machine", "State", "Part", "Chance", "Days until flat", "Next check"];
const WIDTHS = [24, 16, 22, 10, 15, 34];
/** A sentence: size of its letters, height of each of its lines [points]. */
const LINE = { size: 11, height: 15 };
/** Charts stand in this column, one below the other, each so many cells large. */
const CHARTS_AT = 7;
const CHART = { rows: 16, columns: 8 };
/** So many rows of the summary can still be read on one page: the three charts, and five years of months. */
const ROWS_A_PAGE = 90;

/**
 * The first page of an audit: states, the worst ten machines and the months, each with its chart.
 *
 * @param remarks - What else must be known of the workbook, a line each
 */
export function summarySheet(summary: Summary, remarks: readonly string[] = []): Step[] {
  const states: CellWrite[][] = STATES.map((state) => [
    state,
    summary.machineCounts.get(state) ?? 0,
    summary.counts.get(state) ?? 0,
  ]);
  const worst = summary.worst.map(worstCells);
  const months: CellWrite[][] = summary.monthRows().map((month) => [...month]);
  const page = new Page();
  page.write(0, [["Fleet audit"]]);
  page.steps.push({ do: "format", at: area(0, 0, 1, 1), format: { bold: true, size: 16 } });
  const first = `${summary.rows} rows of ${summary.machines} machines; a machine that came more than once counts by its latest visit with readings.`;
  [first, ...remarks].forEach((line, i) => page.line(1 + i, line));
  const statesAt = 3 + remarks.length;
  const states0 = page.table(statesAt, ["State", "Machines", "Rows"], states);
  page.steps.push({ do: "format", at: area(statesAt, 1, 1, 2), format: { align: "right" } });
  page.chart(0, {
    title: "States",
    kind: "column",
    series: [{ name: "Machines", x: column(states0, 0), y: column(states0, 1) }],
    xTitle: "State",
    yTitle: "Machines",
  });
  let next = states0.row + states0.rows + 1;
  page.write(next, [[worst.length > 0 ? `Worst ${worst.length}: who to bring in first` : NOBODY]]);
  page.steps.push({ do: "format", at: area(next, 0, 1, 1), format: { bold: true } });
  if (worst.length > 0) {
    const worst0 = page.table(next + 1, WORST_COLUMNS, worst);
    page.steps.push(
      { do: "format", at: column(worst0, 3), format: { number: "0 %" } },
      { do: "format", at: column(worst0, 4), format: { number: "0.0" } },
      { do: "format", at: area(next + 1, 3, 1 + worst.length, 2), format: { align: "center" } },
    );
    page.chart(1, {
      title: `Worst ${worst.length}: chance that the part named is at fault`,
      kind: "column",
      series: [{ name: "Chance", x: column(worst0, 0), y: column(worst0, 3) }],
      xTitle: "Machine, the most urgent first",
      yTitle: "Chance",
    });
    next = worst0.row + worst0.rows;
  }
  if (months.length > 1) {
    const months0 = page.table(next + 1, ["Month", "Visits", "Faulty or suspect"], months);
    page.steps.push(
      { do: "format", at: column(months0, 2), format: { number: "0 %" } },
      { do: "format", at: area(next + 1, 1, 1, 2), format: { align: "right" } },
    );
    page.chart(2, {
      title: "Faulty or suspect, by month",
      kind: "line",
      series: [{ name: "Share", x: column(months0, 0), y: column(months0, 2) }],
      xTitle: "Month",
      yTitle: "Share of visits",
    });
  }
  return page.finish();
}

const NOBODY = "No machine is faulty, suspect or unproven.";

/** Where no part is named there is no chance of it: blank, not zero. */
function worstCells(row: Ordered): CellWrite[] {
  return [
    row.machine || `row ${row.row}`,
    row.state,
    row.part,
    row.chance === null || row.part === "none" ? "" : Number(row.chance.toFixed(4)),
    row.days === null ? "" : Number(row.days.toFixed(1)),
    row.nextCheck,
  ];
}

/** Tables down the left of the sheet, charts down its right. */
class Page {
  readonly steps: Step[] = [{ do: "add sheet", sheet: SHEET }];
  private bottom = 0;

  write(row: number, values: CellWrite[][]): void {
    this.steps.push({ do: "write", at: area(row, 0, values.length, values[0]!.length), values });
    this.bottom = Math.max(this.bottom, row + values.length);
  }

  /** A sentence across the tables, in as many lines as it takes: beside them stand the charts. */
  line(row: number, text: string): void {
    const at = area(row, 0, 1, WIDTHS.length);
    const width = WIDTHS.reduce((sum, characters) => sum + characters, 0);
    this.write(row, [[text]]);
    this.steps.push(
      { do: "merge", at },
      { do: "format", at, format: { size: LINE.size, wrap: true, vertical: "top" } },
      { do: "row height", sheet: SHEET, row, points: LINE.height * linesOf(text, width, LINE.size) },
    );
  }

  /** @returns Where the values stand, below their headings */
  table(row: number, headings: string[], values: CellWrite[][]): Area {
    this.write(row, [headings, ...values]);
    this.steps.push({
      do: "format",
      at: area(row, 0, 1, headings.length),
      format: { bold: true, border: "bottom" },
    });
    return area(row + 1, 0, values.length, headings.length);
  }

  chart(place: number, chart: Omit<ChartPlan, "anchor">): void {
    const row = 2 + place * (CHART.rows + 1);
    this.steps.push({
      do: "chart",
      sheet: SHEET,
      chart: { ...chart, anchor: { row, column: CHARTS_AT, ...CHART } },
    });
    this.bottom = Math.max(this.bottom, row + CHART.rows);
  }

  finish(): Step[] {
    const widths = WIDTHS.map((characters, c): Step => ({ do: "column width", sheet: SHEET, column: c, characters }));
    const print: Step = {
      do: "print",
      at: area(0, 0, this.bottom, CHARTS_AT + CHART.columns),
      setup: {
        orientation: "landscape",
        fitWidthPages: 1,
        fitHeightPages: Math.ceil(this.bottom / ROWS_A_PAGE),
      },
    };
    return [...this.steps, ...widths, print];
  }
}

function area(row: number, column: number, rows: number, columns: number): Area {
  return { sheet: SHEET, row, column, rows, columns };
}

function column(table: Area, which: number): Area {
  return { ...table, column: table.column + which, columns: 1 };
}
