import { ICommandService, type ICommandInfo, type Injector } from "@univerjs/core";
import {
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import { TriggerCalculationController } from "@univerjs/sheets-formula";

/** What is used of the part of the engine that waits for changes. */
interface Trigger {
  /** Changes that no calculation has taken up yet. */
  _waitingCommandQueue: ICommandInfo[];
  _setTimeoutKey: ReturnType<typeof setTimeout> | number;
  /** What has to be calculated after these changes. */
  _generateDirty(commands: readonly ICommandInfo[]): object;
}

/**
 * The engine lets a tenth of a second go by after each change before it calculates, which is all the
 * time that a person who typed a reading should wait. With this it calculates as soon as the work
 * under way is done: everything that is changed in one go still makes one calculation. While one is
 * under way, changes wait for its end; the engine would stop it and begin from the start, and could
 * lose what it was about to write.
 */
export function calculateAtOnce(injector: Injector): void {
  const trigger = injector.get(TriggerCalculationController) as unknown as Partial<Trigger>;
  if (!hasInternals(trigger)) return;
  const commands = injector.get(ICommandService);
  let underWay = false;

  const begin = () => {
    if (underWay || trigger._waitingCommandQueue.length === 0) return;
    const changes = trigger._waitingCommandQueue;
    trigger._waitingCommandQueue = [];
    const dirty = trigger._generateDirty(changes);
    void commands.executeCommand(SetFormulaCalculationStartMutation.id, dirty, { onlyLocal: true });
  };
  // The engine's own listener came first: what waits stands in its queue, with its timer set.
  const soon = () => {
    clearTimeout(trigger._setTimeoutKey);
    trigger._setTimeoutKey = setTimeout(begin, 0);
  };
  commands.onCommandExecuted(({ id, params }) => {
    if (id === SetFormulaCalculationStartMutation.id) underWay = true;
    else if (id === SetFormulaCalculationNotificationMutation.id) {
      if ((params as ISetFormulaCalculationNotificationMutation).functionsExecutedState === undefined) return;
      underWay = false;
      if (trigger._waitingCommandQueue.length > 0) soon();
    } else if (trigger._waitingCommandQueue.length > 0) soon();
  });
  if (trigger._waitingCommandQueue.length > 0) soon();
}

function hasInternals(trigger: Partial<Trigger>): trigger is Trigger {
  return (
    Array.isArray(trigger._waitingCommandQueue) &&
    trigger._setTimeoutKey !== undefined &&
    typeof trigger._generateDirty === "function"
  );
}
