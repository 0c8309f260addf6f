import {
  DataValidationType,
  type ICellData,
  type IDataValidationRule,
  type Injector,
  type IRange,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { DataValidationModel } from "@univerjs/data-validation";
import { FormulaDataModel, IDefinedNamesService } from "@univerjs/engine-formula";
import { deserializeListOptions } from "@univerjs/sheets";
import { TableManager } from "@univerjs/sheets-table";
import { isCellError } from "../../core/cell";
import { parseRange } from "../../workbook/address";
import type { Area, CellWrite, Step, ValidationRule } from "../../workbook/port";
import { CellReader } from "../engine/read-cells";
import { areaOf } from "./areas";
import { formatOf } from "./cell-data";
import { colourSteps } from "./colour-steps";
import { columnCharacters, rowPoints } from "./measures";
import { chartsOf, printOf } from "./kept-for-files";

/**
 * The whole workbook as the steps that would build it again in another host: what a file is made
 * from. What the grid knows and the steps do not speak of (filters, notes) is left out.
 */
export function stepsOfGrid(injector: Injector, book: Workbook): Step[] {
  const sheets = book.getSheets();
  return [
    ...sheets.map((sheet): Step => ({ do: "add sheet", sheet: sheet.getName() })),
    ...sheets.flatMap((sheet) => sheetSteps(injector, book, sheet)),
    ...nameSteps(injector, book),
  ];
}

function sheetSteps(injector: Injector, book: Workbook, sheet: Worksheet): Step[] {
  return [
    ...cellSteps(injector, book, sheet),
    ...sheet.getMergeData().map((range): Step => ({ do: "merge", at: areaOf(sheet.getName(), range) })),
    ...measureSteps(sheet),
    ...validationSteps(injector, book, sheet),
    ...colourSteps(injector, book, sheet),
    ...tableSteps(injector, book, sheet),
    ...chartsOf(book, sheet).map((chart): Step => ({ do: "chart", sheet: sheet.getName(), chart })),
  ];
}

function cellSteps(injector: Injector, book: Workbook, sheet: Worksheet): Step[] {
  const name = sheet.getName();
  const cells = sheet.getCellMatrix();
  const { endRow, endColumn } = cells.getDataRange();
  if (endRow < 0 || endColumn < 0) return [];
  const reader = new CellReader(book, sheet, injector.get(FormulaDataModel));
  const styles = book.getStyles();
  const values: CellWrite[][] = [];
  const formats: Step[] = [];
  for (let row = 0; row <= endRow; row++) {
    const line: CellWrite[] = [];
    let run: { step: Step & { do: "format" }; key: string } | undefined;
    for (let column = 0; column <= endColumn; column++) {
      line.push(contentAt(reader, row, column));
      const style = styles.getStyleByCell(cells.getValue(row, column) as ICellData);
      const format = style ? formatOf(style) : {};
      const key = JSON.stringify(format);
      if (key === "{}") run = undefined;
      else if (run?.key === key) {
        run = { key, step: { ...run.step, at: { ...run.step.at, columns: run.step.at.columns + 1 } } };
        formats[formats.length - 1] = run.step;
      } else {
        run = { key, step: { do: "format", at: { sheet: name, row, column, rows: 1, columns: 1 }, format } };
        formats.push(run.step);
      }
    }
    values.push(line);
  }
  const at: Area = { sheet: name, row: 0, column: 0, rows: endRow + 1, columns: endColumn + 1 };
  return [{ do: "write", at, values }, ...formats];
}

/** What was put into a cell; nothing for a cell that a formula elsewhere fills. */
function contentAt(reader: CellReader, row: number, column: number): CellWrite {
  const formula = reader.formula(row, column);
  if (formula !== "") {
    const spill = reader.spill(row, column);
    if (!spill) return { formula };
    return {
      formula,
      spills: { rows: spill.endRow - spill.startRow + 1, columns: spill.endColumn - spill.startColumn + 1 },
    };
  }
  const own = reader.ownValue(row, column);
  return own === "" || own === null || isCellError(own) ? undefined : own;
}

function measureSteps(sheet: Worksheet): Step[] {
  const name = sheet.getName();
  const { columnData, rowData, freeze } = sheet.getConfig();
  const steps: Step[] = [];
  for (const [column, data] of Object.entries(columnData ?? {})) {
    if (data?.w !== undefined)
      steps.push({ do: "column width", sheet: name, column: Number(column), characters: columnCharacters(data.w) });
  }
  for (const [row, data] of Object.entries(rowData ?? {})) {
    if (data?.h !== undefined && data.ia === 0)
      steps.push({ do: "row height", sheet: name, row: Number(row), points: rowPoints(data.h) });
  }
  if (freeze && (freeze.xSplit > 0 || freeze.ySplit > 0)) {
    steps.push({ do: "freeze", sheet: name, rows: Math.max(0, freeze.ySplit), columns: Math.max(0, freeze.xSplit) });
  }
  const print = printOf(sheet);
  if (print) steps.push({ do: "print", at: { ...print.at, sheet: name }, setup: print.setup });
  return steps;
}

function validationSteps(injector: Injector, book: Workbook, sheet: Worksheet): Step[] {
  const rules = injector.get(DataValidationModel).getRules(book.getUnitId(), sheet.getSheetId());
  return rules.flatMap((kept) => {
    const rule = ruleOf(kept);
    if (!rule) return [];
    return (kept.ranges as IRange[]).map((range): Step => ({
      do: "validate",
      at: areaOf(sheet.getName(), range),
      rule,
    }));
  });
}

function ruleOf({ type, formula1, error, prompt, promptTitle }: IDataValidationRule): ValidationRule | undefined {
  if (type === DataValidationType.ANY && prompt !== undefined)
    return { kind: "hint", title: promptTitle ?? "", message: prompt };
  if (type !== DataValidationType.LIST || formula1 === undefined || formula1.startsWith("=")) return undefined;
  return { kind: "list", choices: deserializeListOptions(formula1), message: error ?? "Choose from the list." };
}

function tableSteps(injector: Injector, book: Workbook, sheet: Worksheet): Step[] {
  return injector
    .get(TableManager)
    .getTableList(book.getUnitId())
    .filter(({ subUnitId }) => subUnitId === sheet.getSheetId())
    .map(({ name, range }): Step => ({ do: "table", at: areaOf(sheet.getName(), range as IRange), name }));
}

function nameSteps(injector: Injector, book: Workbook): Step[] {
  const names = Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(book.getUnitId()) ?? {});
  return names.flatMap(({ name, formulaOrRefString }): Step[] => {
    const bang = formulaOrRefString.lastIndexOf("!");
    const range = parseRange(formulaOrRefString.slice(bang + 1));
    if (bang < 0 || !range) return [];
    const sheet = formulaOrRefString
      .slice(0, bang)
      .replace(/^=?'(.*)'$/u, "$1")
      .replaceAll("''", "'")
      .replace(/^=/u, "");
    return [{ do: "name", name, at: { sheet, ...range } }];
  });
}
