import { readXlsx, type Sheet } from "hucre/xlsx";
import { isCellError } from "../../core/cell";
import { cellName, parseRange, sheetPrefix } from "../../workbook/address";
import { WorkbookFault, type Area, type CellFormat, type CellWrite, type Step } from "../../workbook/port";
import { formatOf, formatSteps, lostLook } from "./cell-looks";
import { colourSteps, printSteps, validationSteps } from "./file-rules";
import { chartSteps } from "./file-charts";
import { formulaCells, type FormulaCell } from "./formula-cells";
import { typedSpelling } from "./file-formula";
import { readWorkbook, type StoredSheet, type StoredWorkbook } from "./read-workbook";
import type { StoredCell } from "./sheet-cells";
import { whyNotCalculated } from "./trust";
import { lostParts } from "./lost-parts";

/** A workbook file as the steps that build it again in another host. */
export interface FileSteps {
  readonly steps: readonly Step[];
  /** What the file holds and the steps cannot say, named one by one: `Job: the picture`. */
  readonly lost: readonly string[];
}

/** A sheet larger than this is for the command line: the grid would take minutes to show it. */
const MOST_CELLS = 200_000;

/**
 * Reads a workbook file for a host that shows it; the file itself is not touched.
 *
 * @param bytes - The file
 * @param name - What to call it in messages
 * @throws WorkbookFault of reason `file`, which says what is wrong and what to do
 */
export async function stepsOfFile(bytes: Uint8Array, name: string): Promise<FileSteps> {
  const stored = readWorkbook(bytes, name);
  if (stored.sheets.length === 0)
    throw new WorkbookFault(`${name} has no sheet with cells; give a workbook with at least one.`, "file");
  const cells = stored.sheets.reduce((sum, { rows }) => sum + rows.reduce((n, row) => n + row.cells.length, 0), 0);
  if (cells > MOST_CELLS)
    throw new WorkbookFault(
      `${name} has ${cells} cells, more than the page can show (${MOST_CELLS}); open it in a spreadsheet, or audit its tables on the command line.`,
      "file",
    );
  const looks = await readXlsx(bytes, { readStyles: true }).catch(() => {
    throw new WorkbookFault(
      `${name} has a part that cannot be read; open it in the spreadsheet and save it again.`,
      "file",
    );
  });
  const lost = lostParts(stored, looks);
  const formulas = new Map(formulaCells(stored).map((cell) => [cell.stored, cell]));
  const steps = stored.sheets.flatMap((sheet): Step[] => {
    const look = looks.sheets.find(({ name: called }) => called === sheet.name);
    const lose = (what: string) => void lost.push(`${sheet.name}: ${what}`);
    return [
      { do: "add sheet", sheet: sheet.name },
      ...contentSteps(sheet, formulas, lose),
      ...(look ? lookSteps(look, looks.themeColors, lose) : []),
      ...sheet.merges.map((at): Step => ({ do: "merge", at })),
    ];
  });
  return { steps: [...steps, ...tableSteps(stored, lost), ...nameSteps(stored, lost)], lost: [...new Set(lost)] };
}

function contentSteps(
  sheet: StoredSheet,
  formulas: ReadonlyMap<StoredCell, FormulaCell>,
  lose: (what: string) => void,
): Step[] {
  const filled = sheet.rows.flatMap((row) => row.cells);
  const spilled = new Set<string>();
  const contents = new Map<StoredCell, CellWrite>();
  for (const stored of filled) {
    const cell = formulas.get(stored);
    const content = cell ? formulaContent(cell, lose) : valueContent(stored);
    contents.set(stored, content);
    if (cell && typeof content === "object")
      for (let r = 0; r < cell.fills.rows; r++)
        for (let c = 0; c < cell.fills.columns; c++) spilled.add(`${cell.fills.row + r},${cell.fills.column + c}`);
  }
  // One write a row, from its first to its last cell: what lies between is left alone.
  return sheet.rows.flatMap(({ row, cells }): Step[] => {
    const line = new Map<number, CellWrite>();
    for (const stored of cells) {
      const content = contents.get(stored);
      const inSpill = typeof content !== "object" && spilled.has(`${row},${stored.column}`);
      if (content !== undefined && !inSpill) line.set(stored.column, content);
    }
    if (line.size === 0) return [];
    const first = Math.min(...line.keys());
    const columns = Math.max(...line.keys()) - first + 1;
    const at: Area = { sheet: sheet.name, row, column: first, rows: 1, columns };
    return [{ do: "write", at, values: [Array.from({ length: columns }, (_, c) => line.get(first + c))] }];
  });
}

function valueContent({ value, formula }: StoredCell): CellWrite {
  // A data table is no formula that anyone could type.
  if (formula && formula.kind !== "data table" && formula.text !== "") return { formula: typedSpelling(formula.text) };
  return plain(value);
}

function plain(value: StoredCell["value"]): CellWrite {
  if (isCellError(value)) return { formula: `=${value.error}` };
  return value === "" || value === null ? undefined : value;
}

/** As it was typed where the page can keep it so; its last value where it leans on another file. */
function formulaContent(cell: FormulaCell, lose: (what: string) => void): CellWrite {
  const where = `${cellName(cell.stored.row, cell.stored.column)}`;
  if (cell.reach.foreign !== undefined) {
    lose(`${where} refers to ${cell.reach.foreign}, which is not in this file; its last value is kept`);
    return plain(cell.stored.value);
  }
  const reason = whyNotCalculated(cell);
  if (reason) lose(`${where} keeps its formula but has no value here: ${reason}`);
  const { rows, columns } = cell.fills;
  const formula = typedText(cell);
  return rows * columns > 1 ? { formula, spills: { rows, columns } } : { formula };
}

/** With references to tables as they stand; the members of a shared group are already written out. */
function typedText({ stored, formula }: FormulaCell): string {
  const own = stored.formula!;
  return own.kind === "shared" || own.text === "" ? formula : typedSpelling(own.text);
}

function lookSteps(sheet: Sheet, theme: readonly string[] | undefined, lose: (what: string) => void): Step[] {
  const looks = new Map<number, Map<number, CellFormat>>();
  for (const [key, { style }] of sheet.cells ?? []) {
    if (!style) continue;
    const [row, column] = key.split(",").map(Number) as [number, number];
    const line = looks.get(row) ?? new Map<number, CellFormat>();
    looks.set(row, line);
    line.set(column, formatOf(style, theme));
    const without = lostLook(style);
    if (without) lose(without);
  }
  const name = sheet.name;
  const widths = (sheet.columns ?? []).flatMap(({ width }, column): Step[] =>
    width === undefined ? [] : [{ do: "column width", sheet: name, column, characters: width }],
  );
  const heights = [...(sheet.rowDefs ?? [])].flatMap(([row, { height }]): Step[] =>
    height === undefined ? [] : [{ do: "row height", sheet: name, row, points: height }],
  );
  const { rows = 0, columns = 0 } = sheet.freezePane ?? {};
  return [
    ...formatSteps(name, looks),
    ...widths,
    ...heights,
    ...(rows + columns > 0 ? [{ do: "freeze", sheet: name, rows, columns } as const] : []),
    ...validationSteps(sheet, lose),
    ...colourSteps(sheet, theme, lose),
    ...printSteps(sheet),
    ...chartSteps(sheet, lose),
  ];
}

function tableSteps({ tables }: StoredWorkbook, lost: string[]): Step[] {
  return tables.flatMap(({ name, at, headerRows, totalsRows }): Step[] => {
    if (headerRows !== 1) {
      lost.push(`${at.sheet}: the table ${name}, which has no header row; its cells are there`);
      return [];
    }
    if (totalsRows > 0) lost.push(`${at.sheet}: the totals row of the table ${name} is plain cells now`);
    return [{ do: "table", name, at: { ...at, rows: at.rows - totalsRows } }];
  });
}

function nameSteps({ names, sheets }: StoredWorkbook, lost: string[]): Step[] {
  return names.flatMap(({ name, formula, sheet: local }): Step[] => {
    if (name.startsWith("_xlnm.")) return [];
    const bang = formula.lastIndexOf("!");
    const range = parseRange(formula.slice(bang + 1));
    const quoted = formula.slice(0, Math.max(0, bang));
    const sheet = sheets.find((one) => sheetPrefix(one.name) === `${quoted}!` || one.name === quoted);
    if (!range || !sheet || local !== undefined) {
      lost.push(`the name ${name}${local === undefined ? "" : ` of the sheet ${local}`}`);
      return [];
    }
    return [{ do: "name", name, at: { sheet: sheet.name, ...range } }];
  });
}
