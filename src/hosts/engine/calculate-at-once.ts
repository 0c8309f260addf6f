import { ICommandService, toDisposable, type ICellData, type ICommandInfo, type Injector } from "@univerjs/core";
import {
  FormulaExecutedStateType,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import { SetRangeValuesMutation, type ISetRangeValuesMutationParams } from "@univerjs/sheets";
import { TriggerCalculationController } from "@univerjs/sheets-formula";
import { formulasMoved } from "./formulas-moved";
import { Pauses } from "./pauses";
import { PutOff } from "./put-off";

/** What is used of the part of the engine that waits for changes. */
interface Trigger {
  /** Changes that no calculation has taken up yet. */
  _waitingCommandQueue: ICommandInfo[];
  _setTimeoutKey: ReturnType<typeof setTimeout> | number;
  /** What has to be calculated after these changes. */
  _generateDirty(commands: readonly ICommandInfo[]): object;
  disposeWithMe(disposable: { dispose(): void }): unknown;
}

/** Past this a calculation that has not said that it ended is taken for one that broke. */
const LONGEST_CALCULATION_MS = 30_000;

/** As many values as a person types in one go. */
const FEW = 40;

/**
 * The engine lets a tenth of a second go by after each change before it calculates, which is all the
 * time that a person who typed a reading should wait. With this it calculates as soon as the work
 * under way is done: everything that is changed in one go still makes one calculation, and a few values
 * are followed before the page draws them. While a calculation is under way, changes wait for its end;
 * the engine would stop it and begin from the start, and could lose what it was about to write. Only where
 * its formulas have moved, or a function has put it off, what it came to is dropped, and everything calculated anew.
 */
export function calculateAtOnce(injector: Injector, putOff = new PutOff()): void {
  const trigger = injector.get(TriggerCalculationController) as unknown as Partial<Trigger>;
  if (!hasInternals(trigger)) return;
  const commands = injector.get(ICommandService);
  const pauses = new Pauses(injector);
  const config = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  let anew = false;
  let waiting = false;
  let closed = false;
  let underWay: ReturnType<typeof setTimeout> | undefined;

  const isDue = () => anew || trigger._waitingCommandQueue.length > 0;
  const started = () => {
    putOff.began();
    clearTimeout(underWay);
    underWay = setTimeout(ended, LONGEST_CALCULATION_MS);
  };
  const ended = () => {
    clearTimeout(underWay);
    underWay = undefined;
    const needed = putOff.ended();
    if (needed) void waitFor(needed);
    else if (isDue()) soon();
  };
  const waitFor = async (needed: Promise<unknown>) => {
    waiting = true;
    await needed;
    waiting = false;
    anew = true;
    if (!closed) soon();
  };
  const begin = () => {
    if (waiting || underWay !== undefined || !isDue()) return;
    clearTimeout(trigger._setTimeoutKey);
    const changes = trigger._waitingCommandQueue;
    trigger._waitingCommandQueue = [];
    const due = trigger._generateDirty(changes);
    const dirty = anew ? { ...due, forceCalculation: true } : due;
    anew = false;
    // What the engine has been told to calculate it would forget over a second start.
    started();
    pauses.start();
    void commands.executeCommand(SetFormulaCalculationStartMutation.id, dirty, { onlyLocal: true });
  };
  // The engine's own listener came first: what waits stands in its queue, with its timer set.
  const soon = () => {
    clearTimeout(trigger._setTimeoutKey);
    trigger._setTimeoutKey = setTimeout(begin, 0);
  };
  const outcome = runtime.getAllRuntimeData.bind(runtime);
  // The engine writes nothing where it was stopped.
  runtime.getAllRuntimeData = () =>
    anew || putOff.asked
      ? { ...outcome(), functionsExecutedState: FormulaExecutedStateType.STOP_EXECUTION }
      : outcome();
  commands.onCommandExecuted((command, options) => {
    const { id, params } = command;
    if (underWay !== undefined && formulasMoved(command, options, config.getFormulaData())) anew = true;
    if (id === SetFormulaCalculationStartMutation.id) started();
    else if (id === SetFormulaCalculationNotificationMutation.id) {
      if ((params as ISetFormulaCalculationNotificationMutation).functionsExecutedState !== undefined) ended();
    } else if (isDue()) {
      soon();
      if (id === SetRangeValuesMutation.id && areFewValues(params as ISetRangeValuesMutationParams))
        queueMicrotask(begin);
    }
  });
  trigger.disposeWithMe(
    toDisposable(() => {
      closed = true;
      clearTimeout(underWay);
      clearTimeout(trigger._setTimeoutKey);
    }),
  );
  if (trigger._waitingCommandQueue.length > 0) soon();
}

/** Formulas come with many others, when a sheet is laid out. */
function areFewValues({ cellValue }: ISetRangeValuesMutationParams): boolean {
  let count = 0;
  for (const line of Object.values(cellValue ?? {})) {
    for (const cell of Object.values<ICellData | null | undefined>(line ?? {})) {
      count += 1;
      if (count > FEW || cell?.f || cell?.si) return false;
    }
  }
  return true;
}

function hasInternals(trigger: Partial<Trigger>): trigger is Trigger {
  return (
    Array.isArray(trigger._waitingCommandQueue) &&
    trigger._setTimeoutKey !== undefined &&
    typeof trigger._generateDirty === "function" &&
    typeof trigger.disposeWithMe === "function"
  );
}
