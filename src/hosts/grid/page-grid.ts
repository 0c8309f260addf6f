import {
  CommandType,
  ICommandService,
  IResourceLoaderService,
  LocaleService,
  LogLevel,
  Univer,
  UniverInstanceType,
  type Injector,
  type IWorkbookData,
  type Plugin,
  type PluginCtor,
  type Workbook as GridBook,
} from "@univerjs/core";
import { FunctionType, type IFunctionInfo } from "@univerjs/engine-formula";
import { UniverSheetsConditionalFormattingPreset } from "@univerjs/preset-sheets-conditional-formatting";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import { UniverSheetsDataValidationPreset } from "@univerjs/preset-sheets-data-validation";
import { UniverSheetsTablePreset } from "@univerjs/preset-sheets-table";
import { SheetsDataValidationValidatorService } from "@univerjs/sheets-data-validation";
import { CalculationMode } from "@univerjs/sheets-formula";
import "@univerjs/preset-sheets-core/lib/index.css";
import "@univerjs/preset-sheets-conditional-formatting/lib/index.css";
import "@univerjs/preset-sheets-data-validation/lib/index.css";
import "@univerjs/preset-sheets-table/lib/index.css";
import type { LanguageCode } from "../../core/words/language";
import { FUNCTIONS, NAMESPACE } from "../../functions/registry";
import { startAuditThread } from "../audit-threads/audit-thread";
import { freshUnit } from "../engine/fresh-unit";
import { engineFunctions } from "../engine/functions";
import { prepareEngine } from "../engine/prepare-engine";
import { PutOff } from "../engine/put-off";
import { drawLightly } from "./drawing";
import { gridWords } from "./grid-words";
import { GridWorkbook } from "./grid-workbook";
import { acceptAnyCapitals } from "./listed-words";
import { withLongAudits } from "./long-audits";
import { NEW_SHEET } from "./new-sheet";
import { letRibbonStand } from "./standing-ribbon";
import { pasteTextAsTyped, readPastedDates } from "./pasted-text";
import { skipTextMarks } from "./text-marks";
import { plainDate, readTypedDates } from "./typed-dates";

/** What the grid says of a worksheet function while its formula is typed. */
export interface FunctionHelp {
  readonly id: string;
  readonly description?: string;
  readonly parameters: readonly { readonly name: string; readonly description?: string; readonly optional?: boolean }[];
}

export interface PageGrid {
  readonly workbook: GridWorkbook;
  /** Says from now on in `language` what the grid itself says: menus, tips, questions. */
  speak(language: LanguageCode): Promise<void>;
  /** Called after every change, of looks and sheets too, that a person or the pane makes. */
  onChange(listener: () => void): () => void;
  /** The whole workbook as the grid itself understands it, to be kept and opened again. */
  snapshot(): unknown;
  /** The workbook as an .xlsx file, as soon as every formula is calculated. */
  file(title: string, created: Date): Promise<Uint8Array>;
  close(): void;
}

/** What a grid starts with: one empty sheet of this name, or a snapshot that was taken before. */
export type GridStart = { readonly firstSheet: string } | { readonly snapshot: unknown };

type PresetPlugin = PluginCtor<Plugin> | [PluginCtor<Plugin>, unknown?];

/**
 * Shows a spreadsheet in `container` that speaks `language`.
 *
 * @param onWait - Told when cells wait for a long computation beside the page, and when that is done
 */
export async function openPageGrid(
  container: HTMLElement,
  help: readonly FunctionHelp[],
  start: GridStart,
  language: LanguageCode,
  onWait: (waiting: boolean) => void,
): Promise<PageGrid> {
  const words = await gridWords(language);
  drawLightly();
  letRibbonStand();
  const univer = new Univer({ logLevel: LogLevel.ERROR, ...words });
  const putOff = new PutOff(onWait);
  const presets = [
    UniverSheetsCorePreset({
      container,
      formula: {
        function: engineFunctions(withLongAudits(FUNCTIONS, putOff, startAuditThread, navigator.hardwareConcurrency)),
        description: help.map(functionInfo),
        // A snapshot does not hold the cells that a result spills into.
        initialFormulaComputing: CalculationMode.FORCED,
      },
      ribbonType: "simple",
      disableAutoFocus: true,
      // Readings are typed as people write them; text that looks like a number is no mistake here.
      sheets: { disableForceStringAlert: true, disableForceStringMark: true },
    }),
    UniverSheetsConditionalFormattingPreset(),
    // A list that opens while a word is typed has nothing in it to take the rest of the word away.
    UniverSheetsDataValidationPreset({ showSearchOnDropdown: false, showEditOnDropdown: false }),
    UniverSheetsTablePreset(),
  ];
  for (const plugin of presets.flatMap((preset) => preset.plugins as PresetPlugin[])) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1] as object);
    else univer.registerPlugin(plugin);
  }
  const unit = freshUnit();
  const injector = univer.__getInjector();
  const book = univer.createUnit<Partial<IWorkbookData>, GridBook>(UniverInstanceType.UNIVER_SHEET, {
    ...("snapshot" in start ? (start.snapshot as Partial<IWorkbookData>) : emptyBook(start.firstSheet)),
    id: unit,
  });
  prepareEngine(injector, putOff);
  skipTextMarks(injector);
  acceptAnyCapitals();
  const workbook = new GridWorkbook(injector, unit);
  // At hand before words are waited for: the grid may be closed meanwhile.
  const spoken = injector.get(LocaleService);
  let wanted = language;
  const dated = (text: string) => plainDate(text, wanted);
  readTypedDates(injector, dated);
  pasteTextAsTyped(injector, unit, dated);
  readPastedDates(injector, dated);
  return {
    workbook,
    speak: async (next) => {
      wanted = next;
      // Words that cannot be fetched leave the grid as it is.
      const found = await gridWords(next).catch(() => undefined);
      // Another language may have been asked for meanwhile.
      if (!found || wanted !== next || spoken.getCurrentLocale() === found.locale) return;
      spoken.load(found.locales);
      spoken.setLocale(found.locale);
    },
    onChange: (listener) => {
      const listening = injector.get(ICommandService).onCommandExecuted(({ type }, options) => {
        if (type === CommandType.MUTATION && !options?.onlyLocal && !options?.fromFormula) listener();
      });
      return () => listening.dispose();
    },
    snapshot: () => injector.get(IResourceLoaderService).saveUnit(unit),
    file: async (title, created) => {
      // Whoever asks for the used area waits until every formula is calculated.
      await workbook.usedArea(await workbook.activeSheet());
      // A tenth of the page, and asked for now and then.
      const { fileOfGrid } = await import("./grid-file");
      return fileOfGrid(injector, book, { title, created });
    },
    close: () => {
      forgetChecksDue(injector);
      univer.dispose();
    },
  };
}

/** Checks of typed values wait for an idle moment, and one that came after the closing would fail aloud. */
function forgetChecksDue(injector: Injector): void {
  injector.get(SheetsDataValidationValidatorService).validatorRanges = () => Promise.resolve([]);
}

function emptyBook(firstSheet: string): Partial<IWorkbookData> {
  return { sheetOrder: ["first"], sheets: { first: { ...NEW_SHEET, id: "first", name: firstSheet } } };
}

function functionInfo({ id, description, parameters }: FunctionHelp): IFunctionInfo {
  return {
    functionName: `${NAMESPACE}.${id}`,
    functionType: FunctionType.User,
    description: description ?? "",
    abstract: description ?? "",
    functionParameter: parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.description ?? "",
      example: "",
      require: parameter.optional ? 0 : 1,
      repeat: 0,
    })),
  };
}
