import type { ICellData, Injector, IRange, Nullable } from "@univerjs/core";
import {
  ICalculateFormulaService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  type IArrayFormulaRangeType,
} from "@univerjs/engine-formula";

/** A range as the engine marks it for calculation. */
interface DirtyRange {
  readonly unitId: string;
  readonly sheetId: string;
  readonly range: IRange;
}

interface Found {
  dirtyRanges: DirtyRange[];
  readonly excludedCell: unknown;
}

/** What is used of the service that calculates. */
interface SpillStep {
  _getArrayFormulaDirtyRangeAndExcludedRange(spills: IArrayFormulaRangeType, features: object): Found;
}

type Cells = { getValue(row: number, column: number): Nullable<ICellData> };
type CellsBySheet = Readonly<Record<string, Nullable<Readonly<Record<string, Nullable<Cells>>>>>>;

/**
 * After the formulas that spill, the engine calculates whatever reads a cell of any spill once more,
 * also where a spill came out as it was: on the job sheet one reading sent it through every list of
 * states, and from there through all that is drawn from them. With this it goes on from the cells
 * whose value is another one; a spill that is new or has another size counts as a whole.
 */
export function followChangedSpills(injector: Injector): void {
  const service = injector.get(ICalculateFormulaService) as unknown as Partial<SpillStep>;
  const find = service._getArrayFormulaDirtyRangeAndExcludedRange?.bind(service);
  if (!find) return;
  const config = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  service._getArrayFormulaDirtyRangeAndExcludedRange = (spills, features) => {
    const found = find(spills, features);
    if (config.isForceCalculate()) return found;
    const before = config.getArrayFormulaCellData() as unknown as CellsBySheet;
    const now = runtime.getRuntimeArrayFormulaCellData() as unknown as CellsBySheet;
    const rangesBefore = config.getArrayFormulaRange();
    found.dirtyRanges = found.dirtyRanges.flatMap((dirty) => {
      const { unitId, sheetId, range } = dirty;
      const isSpill = spills[unitId]?.[sheetId]?.[range.startRow]?.[range.startColumn] === range;
      const rangeBefore = rangesBefore[unitId]?.[sheetId]?.[range.startRow]?.[range.startColumn];
      const cellsBefore = before[unitId]?.[sheetId];
      const cells = now[unitId]?.[sheetId];
      if (!isSpill || !cells || !cellsBefore || !sameSize(range, rangeBefore)) return [dirty];
      return changedRows(range, cells, cellsBefore).map((changed) => ({ unitId, sheetId, range: changed }));
    });
    return found;
  };
}

function sameSize(range: IRange, before: Nullable<IRange>): boolean {
  return before?.endRow === range.endRow && before.endColumn === range.endColumn;
}

/** From the first to the last cell that changed, row by row. */
function changedRows(range: IRange, now: Cells, before: Cells): IRange[] {
  const changed: IRange[] = [];
  for (let row = range.startRow; row <= range.endRow; row++) {
    let [first, last] = [-1, -1];
    for (let column = range.startColumn; column <= range.endColumn; column++) {
      if (sameValue(now.getValue(row, column), before.getValue(row, column))) continue;
      if (first < 0) first = column;
      last = column;
    }
    if (first >= 0) changed.push({ startRow: row, endRow: row, startColumn: first, endColumn: last });
  }
  return changed;
}

/** The sentence of an error is part of its value. */
function sameValue(now: Nullable<ICellData>, before: Nullable<ICellData>): boolean {
  if (!now || !before) return false;
  return now.v === before.v && now.t === before.t && sentence(now) === sentence(before);
}

function sentence({ custom }: ICellData): string {
  return custom ? JSON.stringify(custom) : "";
}
