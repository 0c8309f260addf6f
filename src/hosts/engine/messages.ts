import { ICommandService, type ICellData, type IDisposable, type Injector, type Nullable } from "@univerjs/core";
import {
  SetFormulaCalculationResultMutation,
  type ISetFormulaCalculationResultMutation,
} from "@univerjs/engine-formula";

/**
 * The sentence of an error rests in the cell's custom data, and a calculation that gives a value says
 * nothing of custom data: without this the last sentence would stay behind the next value.
 */
export function clearSpentMessages(injector: Injector): IDisposable {
  return injector.get(ICommandService).beforeCommandExecuted((command) => {
    if (command.id !== SetFormulaCalculationResultMutation.id) return;
    const { unitData } = command.params as ISetFormulaCalculationResultMutation;
    for (const sheets of Object.values(unitData)) {
      for (const rows of Object.values(sheets ?? {})) {
        for (const row of Object.values(rows ?? {})) {
          for (const cell of Object.values((row ?? {}) as Record<number, Nullable<ICellData>>)) {
            if (cell && cell.custom === undefined) cell.custom = null;
          }
        }
      }
    }
  });
}
