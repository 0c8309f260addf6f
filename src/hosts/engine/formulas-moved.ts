import type { ICellData, ICommandInfo, IExecutionOptions, Nullable } from "@univerjs/core";
import type { IFormulaData } from "@univerjs/engine-formula";
import {
  RemoveSheetMutation,
  ReorderRangeMutation,
  SetRangeValuesMutation,
  type ISetRangeValuesMutationParams,
} from "@univerjs/sheets";
import { MOVING_CELLS } from "./moving-cells";

/** Changes after which a formula may stand in another cell than before, or in none. */
const MOVES: ReadonlySet<string> = new Set([...MOVING_CELLS, ReorderRangeMutation.id, RemoveSheetMutation.id]);

/**
 * Whether formulas have left the cells in which a calculation that is under way found them: what it comes to
 * would be written over whatever stands there now.
 *
 * @param formulas - As the calculation found them
 */
export function formulasMoved(
  { id, params }: ICommandInfo,
  options: IExecutionOptions | undefined,
  formulas: IFormulaData,
): boolean {
  if (MOVES.has(id)) return true;
  if (id !== SetRangeValuesMutation.id || options?.onlyLocal) return false;
  const { unitId, subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
  const standing = formulas[unitId]?.[subUnitId];
  if (!standing) return false;
  return Object.entries(cellValue ?? {}).some(([row, line]) =>
    Object.entries<Nullable<ICellData>>(line ?? {}).some(
      ([column, cell]) => standing[Number(row)]?.[Number(column)] && takesFormulaAway(cell),
    ),
  );
}

/** Looks and notes leave the formula where it is. */
function takesFormulaAway(cell: Nullable<ICellData>): boolean {
  return !cell || (("v" in cell || "f" in cell || "p" in cell) && !cell.f && !cell.si);
}
