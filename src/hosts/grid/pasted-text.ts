import {
  CellValueType,
  ErrorService,
  getNumfmtParseValueFilter,
  ICommandService,
  isFormulaString,
  isTextFormat,
  IUniverInstanceService,
  LocaleService,
  UniverInstanceType,
  willLoseNumericPrecision,
  type ICellData,
  type Injector,
  type Workbook as GridBook,
  type Worksheet,
} from "@univerjs/core";
import { ISheetClipboardService } from "@univerjs/preset-sheets-core";
import { SetRangeValuesCommand, SheetsSelectionsService } from "@univerjs/sheets";
import { getPatternType } from "@univerjs/sheets-numfmt";
import { contentOf } from "./cell-data";

/**
 * Pastes text as if each of its cells had been typed where it goes: looks and rules of the cells stay, and a
 * blank first line is a blank cell. The grid itself makes a web page's table of it, without the blank edges and
 * in that table's looks, or puts all of it into one cell. What comes with looks of its own is left to the grid.
 *
 * @param dated - The text as it is to be read where it is a date, else as it was
 */
export function pasteTextAsTyped(injector: Injector, unit: string, dated: (text: string) => string): void {
  const clipboard = injector.get(ISheetClipboardService);
  const [fromKeys, fromMenu] = [clipboard.legacyPaste.bind(clipboard), clipboard.paste.bind(clipboard)];
  const type = (text: string) => typeAll(injector, unit, cellsOf(text), dated);
  clipboard.legacyPaste = async (html, text, files) =>
    (!html && !files && text ? type(text) : undefined) ?? fromKeys(html, text, files);
  clipboard.paste = async (item, how) => {
    const textOnly = item.types.includes(TEXT) && item.types.every((kind) => kind.startsWith("text/") && kind !== HTML);
    return (textOnly ? type(await (await item.getType(TEXT)).text()) : undefined) ?? fromMenu(item, how);
  };
}

/** Reads dates in what is pasted with looks of its own, before the grid takes their first number for the month. */
export function readPastedDates(injector: Injector, dated: (text: string) => string): void {
  injector.get(ISheetClipboardService).addClipboardHook({
    id: "dates-as-written",
    // The lowest is asked first.
    priority: -1,
    onPasteCells: (from, _to, cells) => {
      if (!from) cells.forValue((_row, _column, cell) => void (typeof cell.v === "string" && (cell.v = dated(cell.v))));
      return { redos: [], undos: [] };
    },
  });
}

const TEXT = "text/plain";
const HTML = "text/html";

/** Lines and tabs; the end of the last line begins no further one. */
function cellsOf(text: string): string[][] {
  return text
    .replace(/(?:\r\n?|\n)$/u, "")
    .split(/\r\n?|\n/u)
    .map((line) => line.split("\t"));
}

/** Whether it was written; `undefined` where the cells lie in a way that is the grid's own to deal with. */
function typeAll(
  injector: Injector,
  unit: string,
  texts: readonly (readonly string[])[],
  dated: (text: string) => string,
): boolean | undefined {
  const first = injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range;
  const book = injector.get(IUniverInstanceService).getUnit<GridBook>(unit, UniverInstanceType.UNIVER_SHEET);
  const sheet = book?.getActiveSheet();
  if (!first || !sheet || !(first.startRow >= 0 && first.startColumn >= 0)) return undefined;
  const value: Record<number, Record<number, ICellData>> = {};
  for (const [r, line] of texts.entries()) {
    const row = first.startRow + r;
    if (row >= sheet.getRowCount() || sheet.getRowFiltered(row)) return undefined;
    for (const [c, text] of line.entries()) {
      const column = first.startColumn + c;
      if (column >= sheet.getColumnCount()) return undefined;
      const merged = sheet.getMergedCell(row, column);
      if (merged && (merged.startRow !== row || merged.startColumn !== column)) {
        if (text.trim() === "") continue;
        return refuse(injector);
      }
      (value[row] ??= {})[column] = typedCell(text, sheet, row, column, dated);
    }
  }
  const at = { unitId: unit, subUnitId: sheet.getSheetId() };
  return injector.get(ICommandService).syncExecuteCommand(SetRangeValuesCommand.id, { ...at, value });
}

/** Under a merged cell the text would be there and seen by no one. */
function refuse(injector: Injector): false {
  const words = injector.get(LocaleService);
  injector.get(ErrorService).emit(words.t("sheets-ui.clipboard.paste.overlappingMergedCells"));
  return false;
}

/** What the cell holds once the text is typed into it; a date or a share brings its format along where the cell has another. */
function typedCell(
  text: string,
  sheet: Worksheet,
  row: number,
  column: number,
  dated: (text: string) => string,
): ICellData {
  if (isFormulaString(text)) return contentOf({ formula: text })!;
  const format = sheet.getCellStyle(row, column)?.n?.pattern;
  const read = isTextFormat(format) ? null : getNumfmtParseValueFilter(dated(text));
  if (typeof read?.v !== "number" || (!read.z && willLoseNumericPrecision(text.trim()))) return contentOf(text)!;
  const cell = { ...contentOf(read.v)!, t: CellValueType.NUMBER };
  const isOther = read.z && getPatternType(read.z) !== getPatternType(format ?? "");
  return isOther ? { ...cell, s: { n: { pattern: read.z! } } } : cell;
}
