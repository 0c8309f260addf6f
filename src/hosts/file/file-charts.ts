import type { Sheet } from "hucre/xlsx";
import { parseRange } from "../../workbook/address";
import type { Area, ChartPlan, ChartSeries, Step } from "../../workbook/port";

type Chart = NonNullable<Sheet["charts"]>[number];

/** Kinds of charts that a plan knows, as files name them; bars stand upright there unless told otherwise. */
const KINDS: Readonly<Partial<Record<string, ChartPlan["kind"]>>> = { line: "line", bar: "column", scatter: "scatter" };

/** What a plan says of a chart and of a series; anything else is a look of its own. */
const SAID = new Set(
  "kinds seriesCount title titleFontSize series axes legend anchor scatterStyle barGrouping lineGrouping".split(" "),
);
const SAID_OF_SERIES = new Set(["kind", "index", "name", "valuesRef", "categoriesRef", "marker"]);

/**
 * The charts of a sheet as steps. One of a kind that no plan knows is lost; one with looks of its own is
 * kept without them.
 */
export function chartSteps(sheet: Sheet, lose: (what: string) => void): Step[] {
  let lost = 0;
  const steps = (sheet.charts ?? []).flatMap((chart): Step[] => {
    const plan = planOf(chart, sheet.name);
    if (!plan) {
      lost++;
      return [];
    }
    if (hasOwnLooks(chart)) lose(`the looks of the chart${plan.title === "" ? "" : ` "${plan.title}"`}`);
    return [{ do: "chart", sheet: sheet.name, chart: plan }];
  });
  if (lost > 0) lose(`${lost} chart${lost === 1 ? "" : "s"}`);
  return steps;
}

function planOf({ kinds, title = "", series = [], axes, anchor }: Chart, sheet: string): ChartPlan | undefined {
  const kind = kinds.length === 1 ? KINDS[kinds[0]!] : undefined;
  const drawn = series.map((one) => seriesOf(one, sheet));
  if (!kind || !anchor?.to || drawn.length === 0 || !drawn.every((one) => one !== undefined)) return undefined;
  return {
    title,
    kind,
    xTitle: axes?.x?.title ?? "",
    yTitle: axes?.y?.title ?? "",
    series: drawn,
    anchor: {
      row: anchor.from.row,
      column: anchor.from.col,
      rows: anchor.to.row - anchor.from.row,
      columns: anchor.to.col - anchor.from.col,
    },
  };
}

type StoredSeries = NonNullable<Chart["series"]>[number];

function seriesOf(
  { name = "", valuesRef, categoriesRef, marker }: StoredSeries,
  sheet: string,
): ChartSeries | undefined {
  const y = areaOf(valuesRef, sheet);
  const x = areaOf(categoriesRef, sheet);
  if (!y || (categoriesRef !== undefined && !x)) return undefined;
  const drawn = marker?.symbol === "none" ? "line" : marker?.symbol === undefined ? undefined : "marks";
  return { name, ...(drawn ? { drawn } : {}), ...(x ? { x } : {}), y };
}

/** `'Job 2'!$B$3:$B$9`; names and several areas are not one. */
function areaOf(reference: string | undefined, own: string): Area | undefined {
  const parts = /^(?:(?:'((?:[^']|'')+)'|([^'!]+))!)?([^!]+)$/u.exec(reference ?? "");
  const range = parts && parseRange(parts[3]!);
  if (!parts || !range) return undefined;
  return { sheet: parts[1]?.replaceAll("''", "'") ?? parts[2] ?? own, ...range };
}

function hasOwnLooks(chart: Chart): boolean {
  const unsaid = (thing: object, said: ReadonlySet<string>) => Object.keys(thing).some((key) => !said.has(key));
  return unsaid(chart, SAID) || (chart.series ?? []).some((series) => unsaid(series, SAID_OF_SERIES));
}
