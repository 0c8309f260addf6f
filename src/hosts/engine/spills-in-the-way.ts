import type { ICellData, Injector, IRange, Nullable, ObjectMatrix } from "@univerjs/core";
import { ErrorType, IFormulaCurrentConfigService, IFormulaRuntimeService } from "@univerjs/engine-formula";

/** What is used of the service that holds a calculation's results. */
interface Results {
  _runtimeData: Readonly<Record<string, Nullable<Readonly<Record<string, Nullable<ObjectMatrix<ICellData>>>>>>>;
  _isInOtherArrayFormulaRange(
    unitId: string,
    sheetId: string,
    row: number,
    column: number,
    r: number,
    c: number,
  ): boolean;
}

/** A formula that spills, and where to. */
interface Spill {
  readonly row: number;
  readonly column: number;
  readonly range: IRange;
}

/**
 * For each cell of each spill the engine goes through all others of the sheet, as it keeps them row by row, to see
 * whether one lies there already: some thousand times at every edit of the job sheet. With this it goes through a
 * list that is made once a calculation.
 */
export function listSpillsOnce(injector: Injector): void {
  const service = injector.get(IFormulaRuntimeService);
  const results = service as unknown as Partial<Results>;
  if (!results._isInOtherArrayFormulaRange || !results._runtimeData) return;
  const config = injector.get(IFormulaCurrentConfigService);
  let listed = new WeakMap<object, readonly Spill[]>();
  const reset = service.reset.bind(service);
  service.reset = () => {
    listed = new WeakMap();
    reset();
  };
  const spillsOf = (unitId: string, sheetId: string): readonly Spill[] => {
    const ranges = config.getArrayFormulaRange()[unitId]?.[sheetId];
    if (!ranges) return [];
    let spills = listed.get(ranges);
    if (!spills) listed.set(ranges, (spills = listOf(ranges)));
    return spills;
  };
  results._isInOtherArrayFormulaRange = (unitId, sheetId, row, column, r, c) =>
    spillsOf(unitId, sheetId).some(
      (spill) =>
        contains(spill.range, r, c) &&
        (spill.row !== row || spill.column !== column) &&
        // One that found no room lies nowhere.
        results._runtimeData![unitId]?.[sheetId]?.getValue(spill.row, spill.column)?.v !== ErrorType.SPILL,
    );
}

function listOf(ranges: Readonly<Record<number, Nullable<Readonly<Record<number, Nullable<IRange>>>>>>): Spill[] {
  return Object.entries(ranges).flatMap(([row, columns]) =>
    Object.entries(columns ?? {}).flatMap(([column, range]) =>
      range ? [{ row: Number(row), column: Number(column), range }] : [],
    ),
  );
}

function contains({ startRow, startColumn, endRow, endColumn }: IRange, row: number, column: number): boolean {
  return row >= startRow && row <= endRow && column >= startColumn && column <= endColumn;
}
