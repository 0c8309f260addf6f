import { ICommandService, type IExecutionOptions, type Injector } from "@univerjs/core";
import {
  FormulaExecutedStateType,
  IActiveDirtyManagerService,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import {
  ClearSelectionFormatCommand,
  SetBorderCommand,
  SetRangeValuesMutation,
  SetStyleCommand,
} from "@univerjs/sheets";

/** Past this a value is read as it stands, lest a reader waits for ever on a calculation that broke. */
const LONGEST_WAIT_MS = 30_000;

/**
 * Knows whether a calculation is due or under way. The engine waits a moment after a change before
 * it calculates, and what it then calls finished may already be out of date: only a calculation that
 * began after the last change settles the sheet.
 */
export class Settling {
  /** A calculation is due as soon as a workbook is opened. */
  private due = true;
  private changes = 0;
  private changesAtStart = 0;
  /** Whoever waits, with the timer after which it does no longer. */
  private readonly waiting = new Map<() => void, ReturnType<typeof setTimeout>>();
  private readonly listeners = new Set<() => void>();

  constructor(injector: Injector) {
    const dirty = injector.get(IActiveDirtyManagerService);
    // There is nothing left to read in a workbook that is closed, and a timer would keep a program from ending.
    injector.onDispose(() => {
      for (const limit of this.waiting.values()) clearTimeout(limit);
      this.waiting.clear();
    });
    injector.get(ICommandService).onCommandExecuted(({ id, params }, options) => {
      if (id === SetFormulaCalculationStartMutation.id) this.changesAtStart = this.changes;
      else if (id === SetFormulaCalculationNotificationMutation.id) {
        this.finished((params as ISetFormulaCalculationNotificationMutation).functionsExecutedState);
      } else if (dirty.get(id) && !needsNoCalculation(id, params, options)) {
        this.due = true;
        this.changes++;
      }
    });
  }

  /** Resolves when every value is as the formulas have it. */
  settled(): Promise<void> {
    if (!this.due) return Promise.resolve();
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(this.waiting.get(done));
        this.waiting.delete(done);
        resolve();
      };
      this.waiting.set(done, setTimeout(done, LONGEST_WAIT_MS));
    });
  }

  onCalculated(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** One that broke has ended as well: what it left is read as it stands. */
  private finished(state: FormulaExecutedStateType | undefined): void {
    if (state === undefined || state === FormulaExecutedStateType.STOP_EXECUTION) return;
    const success = state === FormulaExecutedStateType.SUCCESS;
    if (this.changesAtStart === this.changes) {
      this.due = false;
      for (const done of [...this.waiting.keys()]) done();
    }
    if (success) for (const listener of [...this.listeners]) listener();
  }
}

/** What the engine itself passes over: the values it wrote, and changes of the look alone. */
function needsNoCalculation(id: string, params: unknown, options: IExecutionOptions | undefined): boolean {
  if (id !== SetRangeValuesMutation.id) return false;
  return options?.onlyLocal === true || LOOK_ONLY.has((params as { trigger?: string }).trigger ?? "");
}

const LOOK_ONLY: ReadonlySet<string> = new Set([
  SetStyleCommand.id,
  SetBorderCommand.id,
  ClearSelectionFormatCommand.id,
]);
