import {
  CommandType,
  ICommandService,
  IUniverInstanceService,
  type IMutation,
  type IMutationInfo,
  type Injector,
  type IRange,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { adjustRangeOnMutation, type ISheetCommandSharedParams } from "@univerjs/sheets";
import type { Area, ChartPlan, PrintSetup } from "../../workbook/port";
import { MOVING_CELLS } from "../engine/moving-cells";
import { areaOf, rangeOf } from "./areas";
import type { Changes } from "./changes";

/** The grid neither prints nor draws charts; it keeps what it is told of both for the files made from it. */
interface Kept {
  readonly print?: { readonly at: Area; readonly setup: PrintSetup };
  readonly charts?: readonly KeptChart[];
}

/** A chart whose areas name their sheet by its id, which stays when the sheet gets another name. */
type KeptChart = ChartPlan;

/** What is kept for a sheet becomes something else. As a change of the grid's own kind it is undone and done again with its batch. */
const KEEP: IMutation<ISheetCommandSharedParams & { readonly kept: Kept }> = {
  id: "chargewright.mutation.keep-for-files",
  type: CommandType.MUTATION,
  handler: (accessor, { unitId, subUnitId, kept }) => {
    const book = accessor.get(IUniverInstanceService).getUnit<Workbook>(unitId);
    const sheet = book?.getSheetBySheetId(subUnitId);
    if (!sheet) return false;
    keep(sheet, kept);
    return true;
  },
};

function change(changes: Changes, sheet: Worksheet, kept: Kept): void {
  const mutation = (what: Kept): IMutationInfo => ({
    id: KEEP.id,
    params: { unitId: sheet.getUnitId(), subUnitId: sheet.getSheetId(), kept: what },
  });
  changes.run(mutation(kept), mutation(keptOn(sheet)));
}

export function keepPrint(changes: Changes, sheet: Worksheet, at: Area, setup: PrintSetup): void {
  change(changes, sheet, { ...keptOn(sheet), print: { at, setup } });
}

export function printOf(sheet: Worksheet): Kept["print"] {
  return keptOn(sheet).print;
}

/** @param idOf - Id of the sheet with a name */
export function keepChart(changes: Changes, sheet: Worksheet, chart: ChartPlan, idOf: (sheet: string) => string): void {
  const kept = withAreas(chart, (at) => ({ ...at, sheet: idOf(at.sheet) }));
  change(changes, sheet, { ...keptOn(sheet), charts: [...(keptOn(sheet).charts ?? []), kept] });
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

/** Lets what is kept be changed, and move with its cells when rows, columns or cells are moved, put in or taken out. */
export function keepForFiles(injector: Injector, unit: string, book: () => Workbook): void {
  const commands = injector.get(ICommandService);
  if (!commands.hasCommand(KEEP.id)) commands.registerCommand(KEEP);
  commands.onCommandExecuted(({ id, params }) => {
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
