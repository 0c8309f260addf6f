import { ICommandService, type Injector, type IRange, type Workbook, type Worksheet } from "@univerjs/core";
import { adjustRangeOnMutation, type ISheetCommandSharedParams } from "@univerjs/sheets";
import type { Area, ChartPlan, PrintSetup } from "../../workbook/port";
import { MOVING_CELLS } from "../engine/moving-cells";
import { areaOf, rangeOf } from "./areas";

/** The grid neither prints nor draws charts; it keeps what it is told of both for the files made from it. */
interface Kept {
  readonly print?: { readonly at: Area; readonly setup: PrintSetup };
  readonly charts?: readonly KeptChart[];
}

/** A chart whose areas name their sheet by its id, which stays when the sheet gets another name. */
type KeptChart = ChartPlan;

export function keepPrint(sheet: Worksheet, at: Area, setup: PrintSetup): void {
  keep(sheet, { ...keptOn(sheet), print: { at, setup } });
}

export function printOf(sheet: Worksheet): Kept["print"] {
  return keptOn(sheet).print;
}

/** @param idOf - Id of the sheet with a name */
export function keepChart(sheet: Worksheet, chart: ChartPlan, idOf: (sheet: string) => string): void {
  const kept = withAreas(chart, (at) => ({ ...at, sheet: idOf(at.sheet) }));
  keep(sheet, { ...keptOn(sheet), charts: [...(keptOn(sheet).charts ?? []), kept] });
}

/** The charts that stand on a sheet, without what refers to sheets that are gone. */
export function chartsOf(book: Workbook, sheet: Worksheet): readonly ChartPlan[] {
  return (keptOn(sheet).charts ?? []).flatMap((chart) => {
    const named = withAreas(chart, (at) => {
      const name = book.getSheetBySheetId(at.sheet)?.getName();
      return name === undefined ? undefined : { ...at, sheet: name };
    });
    return named.series.length > 0 ? [named] : [];
  });
}

/** Lets what is kept move with its cells when rows, columns or cells are moved, put in or taken out. */
export function moveKeptAlong(injector: Injector, unit: string, book: () => Workbook): void {
  injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
    if (!MOVING_CELLS.includes(id)) return;
    const { unitId, subUnitId } = params as ISheetCommandSharedParams;
    if (unitId !== unit) return;
    const moved = (range: IRange) => adjustRangeOnMutation(range, { id, params: params as ISheetCommandSharedParams });
    const movedArea = (at: Area): Area | undefined => {
      const range = moved(rangeOf(at));
      return range ? areaOf(at.sheet, range) : undefined;
    };
    for (const sheet of book().getSheets()) {
      const { print, charts } = keptOn(sheet);
      if (!print && !charts) continue;
      const own = sheet.getSheetId() === subUnitId;
      const printed = print && own ? movedArea(print.at) : print?.at;
      const drawn = charts?.map((chart) => ({
        ...withAreas(chart, (at) => (at.sheet === subUnitId ? movedArea(at) : at)),
        ...(own
          ? {
              anchor: {
                ...chart.anchor,
                ...cornerOf(movedArea({ sheet: subUnitId, ...chart.anchor, rows: 1, columns: 1 })),
              },
            }
          : {}),
      }));
      keep(sheet, {
        ...(print && printed ? { print: { at: printed, setup: print.setup } } : {}),
        ...(drawn ? { charts: drawn } : {}),
      });
    }
  });
}

/** A chart with its areas told anew; a series without its values is left out, as a chart does it. */
function withAreas(chart: ChartPlan, tell: (at: Area) => Area | undefined): ChartPlan {
  return {
    ...chart,
    series: chart.series.flatMap(({ x, y, ...series }) => {
      const [along, values] = [x && tell(x), tell(y)];
      return values ? [{ ...series, ...(along ? { x: along } : {}), y: values }] : [];
    }),
  };
}

function cornerOf(at: Area | undefined): { row?: number; column?: number } {
  return at ? { row: at.row, column: at.column } : {};
}

function keptOn(sheet: Worksheet): Kept {
  return (sheet.getCustomMetadata() ?? {}) as Kept;
}

function keep(sheet: Worksheet, kept: Kept): void {
  sheet.setCustomMetadata({ ...kept });
}
