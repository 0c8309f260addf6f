import {
  writeXlsx,
  type Cell as WrittenCell,
  type CellStyle,
  type ConditionalRule,
  type DataValidation,
  type WriteSheet,
} from "hucre/xlsx";
import { fixedRange, rangeName, sheetPrefix } from "../../workbook/address";
import { MARGINS } from "../../workbook/margins";
import type { Area, CellFormat, ChartPlan, ColourRule, PrintSetup, ValidationRule } from "../../workbook/port";
import type { BookModel, Content, SheetModel } from "./book-model";
import { callsOurs, storedSpelling } from "./file-formula";

/** The face of every cell; a style without a face is written without one. */
const FACE = { name: "Calibri", size: 10 } as const;

/**
 * Writes a workbook file from the model, formulas without last values. Formulas that call our
 * functions, and all that spill, are dynamic arrays: stored otherwise, the spreadsheet would take
 * them for formulas of one cell.
 */
export async function authorWorkbook(
  book: BookModel,
  about: { readonly title: string; readonly created: Date },
): Promise<Uint8Array> {
  return writeXlsx({
    sheets: book.sheets.map(writtenSheet),
    defaultFont: FACE,
    namedRanges: book.names.map(({ name, at }) => ({ name, range: sheetPrefix(at.sheet) + fixedRange(at) })),
    properties: { title: about.title, creator: "Chargewright", created: about.created, modified: about.created },
  });
}

function writtenSheet(sheet: SheetModel): WriteSheet {
  const columns = Math.max(0, ...[...sheet.widths.keys()].map((column) => column + 1));
  return {
    name: sheet.name,
    rows: [],
    cells: writtenCells(sheet),
    columns: Array.from({ length: columns }, (_, column) => {
      const width = sheet.widths.get(column);
      return width === undefined ? {} : { width };
    }),
    rowDefs: new Map([...sheet.heights].map(([row, height]) => [row, { height }])),
    merges: sheet.merges.map(({ row, column, rows, columns: width }) => ({
      startRow: row,
      startCol: column,
      endRow: row + rows - 1,
      endCol: column + width - 1,
    })),
    dataValidations: sheet.validations.map(({ at, rule }) => validation(at, rule)),
    conditionalRules: conditionalRules(sheet.rules),
    tables: sheet.tables.map(({ at, name }) => ({
      name,
      range: rangeName(at),
      columns: Array.from({ length: at.columns }, (_, i) => ({
        name: String(sheet.content(at.row, at.column + i) ?? `Column ${i + 1}`),
      })),
      style: "TableStyleLight1",
    })),
    charts: sheet.charts.map((chart) => writtenChart(chart)),
    ...(sheet.freeze ? { freezePane: sheet.freeze } : {}),
    ...(sheet.print ? printSetup(sheet.print.at, sheet.print.setup) : {}),
    view: { showGridLines: false },
  };
}

function writtenCells(sheet: SheetModel): Map<string, WrittenCell> {
  const cells = new Map<string, WrittenCell>();
  for (const [row, line] of sheet.formats) {
    for (const [column, format] of line)
      cells.set(`${row},${column}`, { value: null, type: "empty", style: styleOf(format) });
  }
  for (const { row, column, content } of sheet.filled()) {
    const key = `${row},${column}`;
    const style = cells.get(key)?.style ?? styleOf({});
    cells.set(key, { ...writtenContent(row, column, content), style });
  }
  return cells;
}

function writtenContent(row: number, column: number, content: Content): WrittenCell {
  // Written as it is, text that looks like an error would become one.
  if (typeof content === "string" && content.startsWith("#"))
    return { value: content, type: "richText", richText: [{ text: content }] };
  if (typeof content !== "object") {
    return {
      value: content,
      type: typeof content === "string" ? "string" : typeof content === "number" ? "number" : "boolean",
    };
  }
  const formula = storedSpelling(content.formula);
  const spills = content.spills ?? { rows: 1, columns: 1 };
  const dynamic = spills.rows * spills.columns > 1 || callsOurs(content.formula);
  return dynamic
    ? {
        value: null,
        type: "formula",
        formula,
        formulaType: "array",
        formulaRef: rangeName({ row, column, ...spills }),
        formulaDynamic: true,
      }
    : { value: null, type: "formula", formula };
}

function styleOf(format: CellFormat): CellStyle {
  const line = { style: "thin", color: { rgb: "C9D2D6" } } as const;
  return {
    font: {
      ...FACE,
      ...(format.size === undefined ? {} : { size: format.size }),
      ...(format.bold ? { bold: true } : {}),
      ...(format.italic ? { italic: true } : {}),
      ...(format.colour === undefined ? {} : { color: { rgb: format.colour } }),
    },
    ...(format.fill === undefined
      ? {}
      : { fill: { type: "pattern", pattern: "solid", fgColor: { rgb: format.fill } } as const }),
    ...(format.number === undefined || format.number === "General" ? {} : { numFmt: format.number }),
    ...(format.border === "all"
      ? { border: { top: line, bottom: line, left: line, right: line } }
      : format.border === "bottom"
        ? { border: { bottom: { style: "thin", color: { rgb: "7B8A91" } } as const } }
        : {}),
    alignment: {
      ...(format.align === undefined ? {} : { horizontal: format.align }),
      ...(format.vertical === undefined ? {} : { vertical: format.vertical === "middle" ? "center" : format.vertical }),
      ...(format.wrap ? { wrapText: true } : {}),
    },
  };
}

/** Lists offer their words and refuse nothing: what a person types is read as it stands. */
function validation(at: Area, rule: ValidationRule): DataValidation {
  const shown = { range: rangeName(at), allowBlank: true, showInputMessage: true };
  // A list stands in one text of at most 255 characters, its words parted by commas.
  const fits =
    rule.kind === "list" && rule.choices.every((word) => !word.includes(",")) && rule.choices.join(",").length <= 255;
  return rule.kind === "list" && fits
    ? { ...shown, type: "list", values: [...rule.choices], inputMessage: rule.message }
    : {
        ...shown,
        type: "custom",
        formula1: "TRUE",
        ...(rule.kind === "hint" ? { inputTitle: rule.title } : {}),
        inputMessage: rule.message,
      };
}

function conditionalRules(rules: SheetModel["rules"]): ConditionalRule[] {
  let priority = 0;
  return rules.flatMap(({ at, rule }) =>
    rule.words.map(({ equals, fill, colour }): ConditionalRule => ({
      type: "expression",
      priority: ++priority,
      range: rangeName(at),
      formula: `${decidingCell(at, rule)}="${equals}"`,
      style: {
        font: { color: { rgb: colour } },
        fill: { type: "pattern", pattern: "solid", bgColor: { rgb: fill }, fgColor: { rgb: fill } },
      },
    })),
  );
}

/** The deciding cell as seen from the first cell of the area; rows move along, the column stays. */
function decidingCell(at: Area, { decidedBy }: ColourRule): string {
  const cell = rangeName({
    row: at.row + (decidedBy?.rows ?? 0),
    column: at.column + (decidedBy?.columns ?? 0),
    rows: 1,
    columns: 1,
  });
  return decidedBy ? `$${cell}` : cell;
}

function printSetup(at: Area, setup: PrintSetup): Pick<WriteSheet, "pageSetup" | "headerFooter"> {
  return {
    pageSetup: {
      paperSize: "a4",
      orientation: setup.orientation,
      fitToPage: true,
      fitToWidth: setup.fitWidthPages,
      fitToHeight: setup.fitHeightPages ?? 0,
      margins: MARGINS,
      printArea: fixedRange(at),
      ...(setup.titleRows ? { printTitlesRow: `$1:$${setup.titleRows}` } : {}),
    },
    ...(setup.footer === undefined ? {} : { headerFooter: { oddFooter: `&L&9${setup.footer}` } }),
  };
}

function writtenChart(chart: ChartPlan): NonNullable<WriteSheet["charts"]>[number] {
  const { row, column, rows, columns } = chart.anchor;
  const range = (area: Area) => sheetPrefix(area.sheet) + fixedRange(area);
  return {
    type: chart.kind,
    title: chart.title,
    series: chart.series.map(({ name, x, y, drawn }) => ({
      name,
      values: range(y),
      ...(x ? { categories: range(x) } : {}),
      ...(drawn === "line" ? { marker: { symbol: "none" as const } } : {}),
      ...(drawn === "marks" ? { marker: { symbol: "diamond" as const, size: 10 } } : {}),
    })),
    ...(chart.kind === "scatter" ? { scatterStyle: "lineMarker" as const } : {}),
    anchor: { from: { row, col: column }, to: { row: row + rows, col: column + columns } },
    axes: { x: { title: chart.xTitle }, y: { title: chart.yTitle } },
    legend: chart.series.length > 1 ? "bottom" : false,
  };
}
