import type { ICellData, IRange, Nullable, Workbook, Worksheet } from "@univerjs/core";
import type { FormulaDataModel } from "@univerjs/engine-formula";
import { isBlank, type Cell } from "../../core/cell";
import type { Area } from "../../workbook/port";
import { cellOf } from "./values";

/**
 * Reads computed values as they are: neither as the text a number format shows (which is what the
 * page's own cells give) nor without the cells a result spills into (which the sheet does not hold).
 */
export class CellReader {
  private readonly unit: string;
  private readonly sheet: string;
  private readonly cells: ReturnType<Worksheet["getCellMatrix"]>;
  private readonly spilled: Nullable<Record<number, Nullable<Record<number, Nullable<ICellData>>>>>;
  private readonly spills: Nullable<Record<number, Nullable<Record<number, Nullable<IRange>>>>>;

  constructor(
    workbook: Workbook,
    worksheet: Worksheet,
    private readonly formulas: FormulaDataModel,
  ) {
    this.unit = workbook.getUnitId();
    this.sheet = worksheet.getSheetId();
    this.cells = worksheet.getCellMatrix();
    this.spilled = formulas.getArrayFormulaCellData()[this.unit]?.[this.sheet];
    this.spills = formulas.getArrayFormulaRange()[this.unit]?.[this.sheet];
  }

  value(row: number, column: number): Cell {
    const stored = this.cells.getValue(row, column) as ICellData | null | undefined;
    const calculated = stored?.f !== undefined || stored?.si !== undefined;
    if (!calculated && (stored?.v === undefined || stored.v === null || stored.v === "")) {
      const spilled = this.spilled?.[row]?.[column];
      if (spilled) return cellOf(spilled as ICellData, true);
    }
    return cellOf(stored, calculated);
  }

  /** Values and formulas of a block; most of a sheet's cells hold neither, and are passed over fast. */
  block(at: Omit<Area, "sheet">): { readonly values: Cell[][]; readonly formulas: string[][] } {
    const matrix = this.cells.getMatrix();
    const values: Cell[][] = [];
    const formulas: string[][] = [];
    for (let row = at.row; row < at.row + at.rows; row++) {
      const stored = matrix[row];
      const spilled = this.spilled?.[row];
      const valueLine = new Array<Cell>(at.columns).fill("");
      const formulaLine = new Array<string>(at.columns).fill("");
      for (let c = 0; c < at.columns; c++) {
        const cell = stored?.[at.column + c] as ICellData | null | undefined;
        if (holdsNothing(cell) && !spilled?.[at.column + c]) continue;
        valueLine[c] = this.value(row, at.column + c);
        formulaLine[c] = this.formula(row, at.column + c);
      }
      values.push(valueLine);
      formulas.push(formulaLine);
    }
    return { values, formulas };
  }

  /** What stands in the cell itself, not what a formula elsewhere puts there. */
  ownValue(row: number, column: number): Cell {
    return cellOf(this.cells.getValue(row, column) as ICellData | null | undefined, false);
  }

  /** The formula with its leading `=`, or `""`. */
  formula(row: number, column: number): string {
    const stored = this.cells.getValue(row, column);
    if (stored?.f) return stored.f;
    // A formula filled down is stored once and told apart by its distance.
    return stored?.si ? (this.formulas.getFormulaStringByCell(row, column, this.sheet, this.unit) ?? "") : "";
  }

  /** Calls back for every cell that holds a value or a formula, spilled ones included. */
  eachFilled(visit: (row: number, column: number) => void): void {
    this.cells.forValue((row, column, cell) => {
      const stored = cell as ICellData | undefined;
      if (stored?.f || stored?.si || !isBlank(cellOf(stored, false))) visit(row, column);
    });
    for (const [row, line] of Object.entries(this.spilled ?? {})) {
      for (const [column, cell] of Object.entries(line ?? {})) {
        if (!isBlank(cellOf(cell as ICellData, true))) visit(Number(row), Number(column));
      }
    }
  }

  /** The area that the formula in a cell spills over, if it does. */
  spill(row: number, column: number): IRange | undefined {
    return this.spills?.[row]?.[column] ?? undefined;
  }
}

function holdsNothing(cell: Nullable<ICellData>): boolean {
  return !cell || ((cell.v ?? "") === "" && !cell.p && cell.f === undefined && cell.si === undefined);
}
