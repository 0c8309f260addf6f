import { cellName } from "./address";
import { LOOK } from "./look";
import type { PageArguments } from "./page-arguments";
import { COLUMN, type PageLayout, type PageSetting } from "./page-layout";
import type { ChartPlan } from "./port";
import { stretch, type SheetDraft } from "./sheet-draft";

/** What CURVE answers, in columns. */
const CURVE = { rpm: 0, low: 1, likely: 2, high: 3, amps: 4, columns: 5 } as const;

/**
 * Draws the machine's curve, with the band of everything that is not known of it and the readings on
 * it, beside the printed page over the workings: a chart where the host has charts. The points are the
 * cells that are typed into; one that is blank, or typed with its unit, is not a point.
 */
export function drawCurve(draft: SheetDraft, { template }: PageSetting, layout: PageLayout, args: PageArguments): void {
  const { curve } = template;
  const top = layout.factRows.first;
  const inputs = rowsOfInputs(layout);
  const cell = (id: string) => ({ row: rowIn(inputs, id), column: COLUMN.value });
  const rows = curve.rpms.length;
  const load = cellName(cell(curve.load).row, COLUMN.value);
  draft.put(top, COLUMN.curve, curve.title).format(stretch(top, COLUMN.curve, 1), LOOK.working);
  const first = top + 1;
  draft.put(first, COLUMN.curve, {
    formula: `=IFERROR(CHG.CURVE(${args.machine},{${curve.rpms.join(";")}},IF(${load}="","",${load})),"")`,
    spills: { rows, columns: CURVE.columns },
  });
  draft.format(stretch(first, COLUMN.curve, CURVE.columns, rows), LOOK.working);
  const column = (of: number) => draft.area(stretch(first, COLUMN.curve + of, 1, rows));
  const x = column(CURVE.rpm);
  const chart: ChartPlan = {
    title: curve.title,
    kind: "scatter",
    xTitle: curve.speed,
    yTitle: curve.volts,
    series: [
      { name: curve.low, x, y: column(CURVE.low), drawn: "line" },
      { name: curve.likely, x, y: column(CURVE.likely), drawn: "line" },
      { name: curve.high, x, y: column(CURVE.high), drawn: "line" },
      ...curve.points.map(({ name, speed, volts }) => ({
        name,
        x: draft.area(stretch(cell(speed).row, COLUMN.value, 1)),
        y: draft.area(stretch(cell(volts).row, COLUMN.value, 1)),
        drawn: "marks" as const,
      })),
    ],
    anchor: { row: top + CHART.below, column: COLUMN.workings, rows: CHART.rows, columns: CHART.columns },
  };
  draft.step({ do: "chart", sheet: draft.sheet, chart });
}

/** Below what the verdict, the next check and the causes answer. */
const CHART = { below: 9, rows: 20, columns: 6 } as const;

function rowsOfInputs(layout: PageLayout): ReadonlyMap<string, number> {
  const rows = new Map<string, number>();
  for (const { first, entries } of [...layout.facts, ...layout.stages.flatMap(({ checks }) => checks)])
    entries.forEach((id, i) => rows.set(id, first + i));
  return rows;
}

function rowIn(rows: ReadonlyMap<string, number>, id: string): number {
  const row = rows.get(id);
  if (row === undefined) throw new Error(`The curve wants "${id}", which is not on the page.`);
  return row;
}
