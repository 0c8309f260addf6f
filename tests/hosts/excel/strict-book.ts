import { overlaps } from "../../../src/workbook/address";
import { OfficeError } from "./strict-client";

export type Content = string | number | boolean;
export interface Rectangle {
  row: number;
  column: number;
  rows: number;
  columns: number;
}

/** Looks of a cell, as Excel reports them cell by cell. */
export interface Looks {
  font: { bold: boolean; italic: boolean; size: number; color: string };
  fill: { color: string; pattern: string };
  borders: Record<"top" | "bottom" | "left" | "right", { style: string; color: string; weight: string }>;
  horizontalAlignment: string;
  verticalAlignment: string;
  wrapText: boolean;
}

export interface CellState {
  value: Content;
  type: "Empty" | "String" | "Double" | "Boolean" | "Error";
  formula: string;
  /** Text that only an apostrophe keeps text. */
  quoted: boolean;
  numberFormat: string;
  looks: Looks;
  locked: boolean;
  validation: object | null;
  /** Address of the formula cell that spills into this one. */
  parent: string | null;
}

export interface SheetState {
  id: string;
  name: string;
  cells: Map<string, CellState>;
  merges: Rectangle[];
  tables: { name: string; at: Rectangle; style: string }[];
  charts: { id: string; name: string; detail: Record<string, unknown> }[];
  rules: { id: string; at: Rectangle; formula: string; fill: string; colour: string }[];
  widths: Map<number, number>;
  heights: Map<number, number>;
  frozen: { rows: number; columns: number };
  print: {
    orientation: string;
    zoom: object;
    footer: string;
    area: string | null;
    titles: string | null;
    /** Points, by the name of the property. */
    margins: Record<string, number>;
  };
  protected: boolean;
}

const line = () => ({ style: "None", color: "#000000", weight: "Thin" });
export const PLAIN: () => Looks = () => ({
  font: { bold: false, italic: false, size: 11, color: "#000000" },
  fill: { color: "#FFFFFF", pattern: "None" },
  borders: { top: line(), bottom: line(), left: line(), right: line() },
  horizontalAlignment: "General",
  verticalAlignment: "Bottom",
  wrapText: false,
});

/** Of a new sheet, in points: 0.75 inches above and below, 0.7 at the sides, 0.3 for header and footer. */
export const USUAL_MARGINS: Readonly<Record<string, number>> = {
  topMargin: 54,
  bottomMargin: 54,
  leftMargin: 50.4,
  rightMargin: 50.4,
  headerMargin: 21.6,
  footerMargin: 21.6,
};

function blankCell(): CellState {
  return {
    value: "",
    type: "Empty",
    formula: "",
    quoted: false,
    numberFormat: "General",
    looks: PLAIN(),
    locked: true,
    validation: null,
    parent: null,
  };
}

/** What an Excel workbook holds, as far as the host of the port touches it. */
export class StrictBook {
  readonly sheets: SheetState[] = [];
  readonly names = new Map<string, string>();
  active = 0;
  selected: Rectangle = { row: 0, column: 0, rows: 1, columns: 1 };
  /** Called when a range is selected. */
  onSelect: () => void = () => undefined;
  /** Selected areas; several cannot be asked for as one range. */
  severalSelected = false;
  #ids = 0;
  /** Cells whose formula fills others. */
  readonly #anchors = new Set<string>();
  /** Spills that filled cells block. */
  readonly #waiting = new Map<string, () => void>();

  /** What a formula gives: rows of values, more than one where it spills. */
  compute: (formula: string) => Content[][] = (formula) => [[`<${formula}>`]];

  constructor(...sheets: string[]) {
    for (const name of sheets) this.addSheet(name);
  }

  id(): string {
    return `{${String(++this.#ids).padStart(4, "0")}}`;
  }

  addSheet(name: string): SheetState {
    if (this.find(name)) throw new OfficeError("ItemAlreadyExists", `A sheet ${name} exists.`);
    const sheet: SheetState = {
      id: this.id(),
      name,
      cells: new Map(),
      merges: [],
      tables: [],
      charts: [],
      rules: [],
      widths: new Map(),
      heights: new Map(),
      frozen: { rows: 0, columns: 0 },
      print: {
        orientation: "Portrait",
        zoom: { scale: 100 },
        footer: "",
        area: null,
        titles: null,
        margins: { ...USUAL_MARGINS },
      },
      protected: false,
    };
    this.sheets.push(sheet);
    return sheet;
  }

  find(name: string): SheetState | undefined {
    return this.sheets.find((sheet) => sheet.name.toUpperCase() === name.toUpperCase() || sheet.id === name);
  }

  sheet(name: string): SheetState {
    const sheet = this.find(name);
    if (!sheet) throw new OfficeError("ItemNotFound", `There is no sheet ${name}.`);
    return sheet;
  }

  cell(sheet: SheetState, row: number, column: number): CellState {
    const key = `${row},${column}`;
    let cell = sheet.cells.get(key);
    if (!cell) sheet.cells.set(key, (cell = blankCell()));
    return cell;
  }

  /** Carries out what a person, or `range.formulas`, enters into one cell. */
  enter(sheet: SheetState, row: number, column: number, entered: Content | null): void {
    if (entered === null) return;
    const cell = this.cell(sheet, row, column);
    if (sheet.protected && cell.locked) throw new OfficeError("AccessDenied", "The sheet is protected.");
    const merge = sheet.merges.find((area) => overlaps(area, { row, column, rows: 1, columns: 1 }));
    if (merge && (merge.row !== row || merge.column !== column)) return;
    // Clearing a cell that another fills does nothing.
    if (entered === "" && cell.parent !== null) return;
    this.#clearSpill(sheet, row, column);
    Object.assign(cell, { value: "", type: "Empty", formula: "", quoted: false, parent: null });
    if (typeof entered === "string" && /^=./u.test(entered)) {
      cell.formula = entered;
      // Excel gives a cell the format of what its formula returns.
      if (/\bTODAY\(/u.test(entered)) cell.numberFormat = "d-mmm";
      this.#spill(sheet, row, column, this.compute(entered));
    } else Object.assign(cell, understood(entered));
    // A spill that was blocked fills its cells as soon as they are free.
    const waiting = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const retry of waiting) retry();
  }

  #clearSpill(sheet: SheetState, row: number, column: number): void {
    if (!this.#anchors.delete(`${sheet.id} ${row},${column}`)) return;
    for (const cell of sheet.cells.values()) {
      if (cell.parent === `${row},${column}`) Object.assign(cell, { value: "", type: "Empty", parent: null });
    }
  }

  #spill(sheet: SheetState, row: number, column: number, rows: Content[][]): void {
    const blocked = rows.some((line, r) =>
      line.some((_, c) => (r > 0 || c > 0) && this.cell(sheet, row + r, column + c).type !== "Empty"),
    );
    if (blocked) {
      const cell = this.cell(sheet, row, column);
      const { formula } = cell;
      Object.assign(cell, { value: "#SPILL!", type: "Error" });
      this.#waiting.set(`${sheet.id} ${row},${column}`, () => {
        if (cell.formula === formula) this.#spill(sheet, row, column, rows);
      });
      return;
    }
    if (rows.length * rows[0]!.length > 1) this.#anchors.add(`${sheet.id} ${row},${column}`);
    for (const [r, line] of rows.entries()) {
      for (const [c, value] of line.entries()) {
        const cell = this.cell(sheet, row + r, column + c);
        Object.assign(cell, typed(value));
        if (r > 0 || c > 0) cell.parent = `${row},${column}`;
      }
    }
  }

  /**
   * Everything a user can see, in one text that two states can be compared by. Blank plain cells do
   * not count, nor does an apostrophe before text that stays text without it.
   */
  snapshot(): string {
    const visible = ({ quoted: _quoted, validation, ...cell }: CellState) => ({
      ...cell,
      validation: validation && Object.fromEntries(Object.entries(validation).sort(([a], [b]) => a.localeCompare(b))),
    });
    const blank = JSON.stringify(visible(blankCell()));
    return JSON.stringify(
      {
        names: [...this.names].sort(),
        sheets: this.sheets.map((sheet) => ({
          ...sheet,
          cells: [...sheet.cells]
            .map(([key, cell]) => [key, visible(cell)] as const)
            .filter(([, cell]) => JSON.stringify(cell) !== blank)
            .sort(([a], [b]) => a.localeCompare(b)),
          widths: [...sheet.widths].filter(([, width]) => width !== 48),
          heights: [...sheet.heights].filter(([, height]) => height !== 15),
        })),
      },
      null,
      1,
    );
  }
}

function typed(value: Content): Pick<CellState, "value" | "type"> {
  if (typeof value === "number") return { value, type: "Double" };
  if (typeof value === "boolean") return { value, type: "Boolean" };
  if (/^#[A-Z]/u.test(value)) return { value, type: "Error" };
  return { value, type: value === "" ? "Empty" : "String" };
}

/** What Excel makes of what is entered: numbers, dates, shares, truth values, text. */
function understood(entered: Content): Partial<CellState> {
  if (typeof entered !== "string" || entered === "") return typed(entered);
  if (entered.startsWith("'")) return { value: entered.slice(1), type: "String", quoted: true };
  if (/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/iu.test(entered)) return typed(Number(entered));
  if (/^[+-]?\d+(?:\.\d+)?\s?%$/u.test(entered))
    return { ...typed(Number.parseFloat(entered) / 100), numberFormat: "0%" };
  if (/^(?:\d{1,2}[-/]\d{1,2}|\p{L}{3,9} \d{1,2})$/u.test(entered)) return { ...typed(45000), numberFormat: "d-mmm" };
  if (/^(?:true|false)$/iu.test(entered)) return typed(/^t/iu.test(entered));
  if (/^[+@-]/u.test(entered)) throw new OfficeError("InvalidArgument", `${entered} is no formula.`);
  return typed(entered);
}
