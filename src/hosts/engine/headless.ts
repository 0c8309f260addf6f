import {
  ICommandService,
  LocaleType,
  LogLevel,
  Univer,
  UniverInstanceType,
  type Injector,
  type IWorkbookData,
  type Plugin,
  type PluginCtor,
  type Workbook,
} from "@univerjs/core";
import {
  FormulaExecutedStateType,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  UniverFormulaEnginePlugin,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { CalculationMode, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import type { FunctionTable } from "../../functions/registry";
import { engineFunctions } from "./functions";
import { guardInterpreter } from "./guard";
import { clearSpentMessages } from "./messages";

/** A workbook without a screen, with its calculation in our hands. */
export interface Headless {
  readonly injector: Injector;
  readonly book: Workbook;
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
 */
export function openHeadless(data: Partial<IWorkbookData>, options: HeadlessOptions = {}): Headless {
  const univer = new Univer({
    logLevel: LogLevel.ERROR,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
  });
  univer.registerPlugin(UniverFormulaEnginePlugin, { function: engineFunctions(options.functions) });
  univer.registerPlugin(UniverSheetsPlugin);
  univer.registerPlugin(UniverSheetsFormulaPlugin, { initialFormulaComputing: CalculationMode.NO_CALCULATION });
  for (const plugin of options.plugins ?? []) univer.registerPlugin(plugin);
  const book = univer.createUnit<Partial<IWorkbookData>, Workbook>(UniverInstanceType.UNIVER_SHEET, data);
  const injector = univer.__getInjector();
  guardInterpreter(injector);
  clearSpentMessages(injector);
  return { injector, book, calculate: () => calculateAll(injector), close: () => univer.dispose() };
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
