import {
  ICommandService,
  LocaleService,
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
import { prepareEngine } from "./prepare-engine";
import type { PutOff } from "./put-off";

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
  /** By which its functions may put a calculation off. */
  readonly putOff?: PutOff;
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
  prepareEngine(injector, options.putOff);
  const locale = injector.get(LocaleService);
  const opened = runEnds(injector);
  return {
    injector,
    book,
    calculate: async () => {
      await opened;
      const done = runEnds(injector);
      const force = { forceCalculation: true };
      void injector
        .get(ICommandService)
        .executeCommand(SetFormulaCalculationStartMutation.id, force, { onlyLocal: true });
      await done;
    },
    close: () => {
      univer.dispose();
      // A progress report may still be waiting for its time; without any language it would throw.
      locale.load({ [LocaleType.EN_US]: {} });
    },
  };
}

/**
 * Resolves when the run of the engine that comes next has ended. The engine starts one of its own
 * once a workbook is opened, which finds nothing due; ours waits for that one, so that neither stops
 * the other and leaves its cells blank.
 */
function runEnds(injector: Injector): Promise<void> {
  const commands = injector.get(ICommandService);
  return new Promise((resolve) => {
    const listening = commands.onCommandExecuted((command) => {
      if (command.id !== SetFormulaCalculationNotificationMutation.id) return;
      const state = (command.params as ISetFormulaCalculationNotificationMutation).functionsExecutedState;
      if (state !== FormulaExecutedStateType.SUCCESS && state !== FormulaExecutedStateType.NOT_EXECUTED) return;
      // Leaving at once would make the engine pass over the listener that comes after this one.
      queueMicrotask(() => listening.dispose());
      resolve();
    });
  });
}
