import type { Cell } from "../../core/cell";
import { areaName, overlaps } from "../../workbook/address";
import {
  WorkbookFault,
  type Area,
  type HostInfo,
  type ReadArea,
  type Step,
  type TableArea,
  type Workbook,
} from "../../workbook/port";
import { calculateBook, type Book, type CalculatedBook } from "../engine/calculate-book";
import { authorWorkbook } from "./author";
import { BookModel, type SheetModel } from "./book-model";
import { callsOurs } from "./file-formula";
import { fillLastValues } from "./fill-last-values";

/** A new workbook that becomes an .xlsx file: built in memory, calculated when it is read or saved. */
export class FileWorkbook implements Workbook {
  readonly host: HostInfo = { kind: "file", tables: true, undo: false };
  readonly #book = new BookModel();
  #active = 0;
  #selection: Area | undefined;
  #calculated: Promise<CalculatedBook> | undefined;
  readonly #calculatedListeners = new Set<() => void>();
  readonly #selectionListeners = new Set<(at: Area) => void>();

  async sheetNames(): Promise<readonly string[]> {
    return this.#book.sheets.map(({ name }) => name);
  }

  async activeSheet(): Promise<string> {
    const sheet = this.#book.sheets[this.#active];
    if (!sheet) throw new WorkbookFault("The workbook has no sheet yet.", "missing");
    return sheet.name;
  }

  async activateSheet(sheet: string): Promise<void> {
    this.#active = this.#book.sheets.indexOf(this.#book.sheet(sheet));
  }

  async usedArea(sheet: string): Promise<Area> {
    const model = this.#book.sheet(sheet);
    let [rows, columns] = [0, 0];
    const reach = (row: number, column: number) => {
      rows = Math.max(rows, row);
      columns = Math.max(columns, column);
    };
    const calculated = await this.#values();
    for (const { row, column, content } of model.filled()) {
      const spill = typeof content === "object" ? calculated.spill(model.name, row, column) : { rows: 1, columns: 1 };
      reach(row + spill.rows, column + spill.columns);
    }
    return { sheet: model.name, row: 0, column: 0, rows, columns };
  }

  async read(at: Area): Promise<ReadArea> {
    const model = this.#book.sheet(at.sheet);
    const calculated = await this.#values();
    const over = <T>(cell: (row: number, column: number) => T): T[][] =>
      Array.from({ length: at.rows }, (_, r) =>
        Array.from({ length: at.columns }, (_, c) => cell(at.row + r, at.column + c)),
      );
    return {
      values: over((row, column) => valueAt(model, calculated, row, column)),
      formulas: over((row, column) => {
        const content = model.content(row, column);
        return typeof content === "object" ? content.formula : "";
      }),
    };
  }

  async mergedIn(at: Area): Promise<readonly Area[]> {
    return this.#book.sheet(at.sheet).merges.filter((merged) => overlaps(merged, at));
  }

  async tablesIn(at: Area): Promise<readonly TableArea[]> {
    const tables = this.#book.sheet(at.sheet).tables.filter((table) => overlaps(table.at, at));
    return tables.map((table) => ({ ...table, totals: false }));
  }

  async apply(batch: readonly Step[]): Promise<void> {
    this.#book.apply(batch);
    this.#calculated = undefined;
    for (const listener of this.#calculatedListeners) listener();
  }

  async selection(): Promise<Area> {
    return this.#selection ?? { sheet: await this.activeSheet(), row: 0, column: 0, rows: 1, columns: 1 };
  }

  async select(at: Area): Promise<void> {
    this.#active = this.#book.sheets.indexOf(this.#book.sheet(at.sheet));
    this.#selection = at;
    for (const listener of this.#selectionListeners) listener(at);
  }

  /** Nobody edits a file by hand while it is being made. */
  onEdit(): () => void {
    return () => undefined;
  }

  onCalculated(listener: () => void): () => void {
    this.#calculatedListeners.add(listener);
    return () => void this.#calculatedListeners.delete(listener);
  }

  onSelection(listener: (at: Area) => void): () => void {
    this.#selectionListeners.add(listener);
    return () => void this.#selectionListeners.delete(listener);
  }

  /**
   * The file, with the last value of every formula in it.
   *
   * @param about - What the file says of itself
   */
  async save(about: { readonly title: string; readonly created: Date }): Promise<Uint8Array> {
    if (this.#book.sheets.length === 0) throw new WorkbookFault("The workbook has no sheet yet.", "missing");
    const ours = this.#book.sheets.some((sheet) =>
      [...sheet.filled()].some(({ content }) => typeof content === "object" && callsOurs(content.formula)),
    );
    return fillLastValues(await authorWorkbook(this.#book, about), await this.#values(), { ours });
  }

  #values(): Promise<CalculatedBook> {
    this.#calculated ??= calculateBook(bookOf(this.#book)).catch((error: unknown) => {
      this.#calculated = undefined;
      throw new WorkbookFault(
        `The formulas could not be calculated: ${error instanceof Error ? error.message : String(error)}`,
        "host",
      );
    });
    return this.#calculated;
  }
}

function valueAt(sheet: SheetModel, calculated: CalculatedBook, row: number, column: number): Cell {
  const content = sheet.content(row, column);
  return content === undefined || typeof content === "object" ? calculated.value(sheet.name, row, column) : content;
}

function bookOf(model: BookModel): Book {
  return {
    sheets: model.sheets.map((sheet) => ({
      name: sheet.name,
      cells: [...sheet.filled()].map(({ row, column, content }) => ({
        row,
        column,
        content: typeof content === "object" ? { formula: content.formula } : { value: content },
      })),
    })),
    names: model.names.map(({ name, at }) => ({ name, refersTo: areaName(at) })),
    tables: model.sheets.flatMap((sheet) =>
      sheet.tables.map(({ name, at }) => ({
        name,
        sheet: sheet.name,
        row: at.row,
        column: at.column,
        rows: at.rows,
        headers: Array.from({ length: at.columns }, (_, i) => String(sheet.content(at.row, at.column + i) ?? "")),
      })),
    ),
  };
}
