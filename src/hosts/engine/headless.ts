import {
  ICommandService,
  LocaleType,
  LogLevel,
  Univer,
  type Injector,
  type IWorkbookData,
  type Plugin,
  type PluginCtor,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import {
  FormulaExecutedStateType,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  UniverFormulaEnginePlugin,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { CalculationMode, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import "@univerjs/sheets/facade";
import type { FunctionTable } from "../../functions/registry";
import { engineFunctions } from "./functions";
import { guardInterpreter } from "./guard";
import { clearSpentMessages } from "./messages";

/** A workbook without a screen, with its calculation in our hands. */
export interface Headless {
  readonly api: FUniver;
  readonly injector: Injector;
  /** Calculates every formula; resolves when all values stand in their cells. */
  calculate(): Promise<void>;
  close(): void;
}

export interface HeadlessOptions {
  /** The worksheet functions to offer besides the engine's own. */
  readonly functions?: FunctionTable;
  /** What the workbook holds besides cells; calculation needs none of it. */
  readonly plugins?: readonly PluginCtor<Plugin>[];
}

/**
 * Opens a workbook in the engine, without calculating it.
 *
 * @param data - The workbook; without it there is none yet
 */
export function openHeadless(data?: Partial<IWorkbookData>, options: HeadlessOptions = {}): Headless {
  const univer = new Univer({
    logLevel: LogLevel.ERROR,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
  });
  univer.registerPlugin(UniverFormulaEnginePlugin, { function: engineFunctions(options.functions) });
  univer.registerPlugin(UniverSheetsPlugin);
  univer.registerPlugin(UniverSheetsFormulaPlugin, { initialFormulaComputing: CalculationMode.NO_CALCULATION });
  for (const plugin of options.plugins ?? []) univer.registerPlugin(plugin);
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  if (data) api.createWorkbook(data);
  guardInterpreter(injector);
  clearSpentMessages(injector);
  return { api, injector, calculate: () => calculateAll(injector), close: () => univer.dispose() };
}

let units = 0;

/**
 * An id for one more workbook. The engine keeps parsed formulas by workbook id for as long as the
 * program runs, so an id that was used before would bring back formulas of an engine that is gone.
 */
export function freshUnit(): string {
  return `workbook-${++units}`;
}

/** Calculates every formula, whether it is due or not. */
function calculateAll(injector: Injector): Promise<void> {
  const commands = injector.get(ICommandService);
  return new Promise((resolve) => {
    const listening = commands.onCommandExecuted((command) => {
      if (command.id !== SetFormulaCalculationNotificationMutation.id) return;
      const state = (command.params as ISetFormulaCalculationNotificationMutation).functionsExecutedState;
      if (state !== FormulaExecutedStateType.SUCCESS && state !== FormulaExecutedStateType.NOT_EXECUTED) return;
      listening.dispose();
      resolve();
    });
    void commands.executeCommand(
      SetFormulaCalculationStartMutation.id,
      { forceCalculation: true },
      { onlyLocal: true },
    );
  });
}
