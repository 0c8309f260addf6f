import {
  ObjectMatrix,
  type ICellData,
  type Injector,
  type IObjectMatrixPrimitiveType,
  type IRange,
  type Nullable,
} from "@univerjs/core";
import {
  FormulaDataModel,
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
  /** Formulas that are not calculated once more. */
  readonly excludedCell: Record<string, Record<string, ObjectMatrix<boolean>>>;
}

/** What is used of the service that calculates. */
interface SpillStep {
  _getArrayFormulaDirtyRangeAndExcludedRange(spills: IArrayFormulaRangeType, features: object): Found;
}

type Cell = Nullable<ICellData>;
type Cells = ObjectMatrix<Cell>;
type CellsBySheet = Readonly<Record<string, Nullable<Readonly<Record<string, Nullable<Cells>>>>>>;

/**
 * After the formulas that spill, the engine calculates whatever reads a cell of any spill once more,
 * also where a spill came out as it was: on the job sheet one reading sent it through every list of
 * states, and from there through all that is drawn from them. With this it goes on from the cells
 * whose value is another one; a spill that is new or has another size counts as a whole, and so do the
 * cells that a shorter one gave up: the engine left their readers with what they were before.
 */
export function followChangedSpills(injector: Injector): void {
  const service = injector.get(ICalculateFormulaService) as unknown as Partial<SpillStep>;
  const find = service._getArrayFormulaDirtyRangeAndExcludedRange?.bind(service);
  if (!find) return;
  const config = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  const shorter = giveUpCells(config, runtime);
  followRemoved(injector.get(FormulaDataModel), config);
  service._getArrayFormulaDirtyRangeAndExcludedRange = (spills, features) => {
    const found = find(spills, features);
    const before = config.getArrayFormulaCellData() as unknown as CellsBySheet;
    const now = runtime.getRuntimeArrayFormulaCellData() as unknown as CellsBySheet;
    const rangesBefore = config.getArrayFormulaRange();
    const givenUp = shorter.splice(0);
    // Whatever reads the formula's own cell came after it in any case.
    for (const { unitId, sheetId, range } of givenUp)
      ((found.excludedCell[unitId] ??= {})[sheetId] ??= new ObjectMatrix()).setValue(
        range.startRow,
        range.startColumn,
        true,
      );
    if (config.isForceCalculate()) return found;
    found.dirtyRanges = found.dirtyRanges.flatMap((dirty) => {
      const { unitId, sheetId, range } = dirty;
      const isSpill = spills[unitId]?.[sheetId]?.[range.startRow]?.[range.startColumn] === range;
      const rangeBefore = rangesBefore[unitId]?.[sheetId]?.[range.startRow]?.[range.startColumn];
      const cellsBefore = before[unitId]?.[sheetId];
      const cells = now[unitId]?.[sheetId];
      if (!isSpill || !cells || !cellsBefore || !sameSize(range, rangeBefore)) return [dirty];
      return changedRows(range, cells, cellsBefore).map((changed) => ({ unitId, sheetId, range: changed }));
    });
    found.dirtyRanges.push(...givenUp);
    return found;
  };
}

/**
 * What a spill gives up holds nothing from the moment on that its formula was calculated: the engine would go on
 * showing it to formulas that read a range, and all of it where the spill came down to one value.
 *
 * @returns Filled with the former ranges of spills that came out shorter, while a calculation goes on
 */
function giveUpCells(config: IFormulaCurrentConfigService, runtime: IFormulaRuntimeService): DirtyRange[] {
  const shorter: DirtyRange[] = [];
  const reset = runtime.reset.bind(runtime);
  runtime.reset = () => {
    shorter.length = 0;
    reset();
  };
  const set = runtime.setRuntimeData.bind(runtime);
  runtime.setRuntimeData = (value) => {
    set(value);
    const { currentUnitId: unitId, currentSubUnitId: sheetId, currentRow: row, currentColumn: column } = runtime;
    const range = config.getArrayFormulaRange()[unitId]?.[sheetId]?.[row]?.[column];
    if (!range) return;
    const now = runtime.getUnitArrayFormula()[unitId]?.[sheetId]?.[row]?.[column];
    const [endRow, endColumn] = now ? [now.endRow, now.endColumn] : [row, column];
    if (endRow >= range.endRow && endColumn >= range.endColumn) return;
    shorter.push({ unitId, sheetId, range });
    const cells = config.getArrayFormulaCellData() as unknown as Record<string, Record<string, Cells>>;
    const before = cells[unitId]?.[sheetId];
    // The engine's record of the last calculation shares these rows: should this one break off, it still stands.
    if (before) cells[unitId]![sheetId] = new ObjectMatrix(without(range, endRow, endColumn, before.getMatrix()));
  };
  return shorter;
}

/** A formula that spilled and is taken away leaves cells behind as well, and the engine followed its own cell alone. */
function followRemoved(model: FormulaDataModel, config: IFormulaCurrentConfigService): void {
  const removed: DirtyRange[] = [];
  const update = model.updateArrayFormulaRange.bind(model);
  model.updateArrayFormulaRange = (unitId, sheetId, edited) => {
    const ranges = model.getArrayFormulaRange()[unitId]?.[sheetId];
    new ObjectMatrix(edited).forValue((row, column) => {
      const range = ranges?.[row]?.[column];
      if (range) removed.push({ unitId, sheetId, range });
    });
    return update(unitId, sheetId, edited);
  };
  const load = config.load.bind(config);
  config.load = (dataset) => load({ ...dataset, dirtyRanges: [...dataset.dirtyRanges, ...removed.splice(0)] });
}

function without(range: IRange, endRow: number, endColumn: number, rows: IObjectMatrixPrimitiveType<Cell>) {
  const left = { ...rows };
  for (let r = range.startRow; r <= range.endRow; r++) {
    const row = { ...left[r] };
    for (let c = range.startColumn; c <= range.endColumn; c++) if (r > endRow || c > endColumn) delete row[c];
    left[r] = row;
  }
  return left;
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
