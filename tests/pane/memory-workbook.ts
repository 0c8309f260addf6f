import type { Cell } from "../../src/core/cell";
import { overlaps } from "../../src/workbook/address";
import {
  WorkbookFault,
  type Area,
  type CellWrite,
  type HostInfo,
  type ReadArea,
  type Step,
  type TableArea,
  type Workbook,
} from "../../src/workbook/port";

/** A workbook in memory behind the port: values and formulas as written, nothing calculated. */
export class MemoryWorkbook implements Workbook {
  readonly host: HostInfo = { kind: "grid", tables: false, undo: false };
  private readonly sheets = new Map<string, { values: Cell[][]; formulas: string[][] }>();
  private active = "";
  private selected: Area = { sheet: "", row: 0, column: 0, rows: 1, columns: 1 };
  /** Tables that a test puts there. */
  tables: TableArea[] = [];
  private readonly edits = new Set<(change: Area) => void>();
  private readonly calculated = new Set<() => void>();
  private readonly selections = new Set<(at: Area) => void>();
  /** Makes the next `apply` fail with this sentence. */
  failNext: string | undefined;
  readonly calls = { reads: 0, applies: 0 };

  async sheetNames(): Promise<readonly string[]> {
    return [...this.sheets.keys()];
  }

  async activeSheet(): Promise<string> {
    return this.active;
  }

  async activateSheet(sheet: string): Promise<void> {
    this.sheet(sheet);
    this.active = sheet;
  }

  async usedArea(sheet: string): Promise<Area> {
    const { values } = this.sheet(sheet);
    return { sheet, row: 0, column: 0, rows: values.length, columns: Math.max(0, ...values.map((row) => row.length)) };
  }

  async read(at: Area): Promise<ReadArea> {
    this.calls.reads++;
    const { values, formulas } = this.sheet(at.sheet);
    const cut = <T>(from: readonly (readonly T[])[], blank: T) =>
      Array.from({ length: at.rows }, (_, r) =>
        Array.from({ length: at.columns }, (_, c) => from[at.row + r]?.[at.column + c] ?? blank),
      );
    return { values: cut<Cell>(values, ""), formulas: cut(formulas, "") };
  }

  async mergedIn(): Promise<readonly Area[]> {
    return [];
  }

  async tablesIn(at: Area): Promise<readonly TableArea[]> {
    return this.tables.filter((table) => table.at.sheet === at.sheet && overlaps(table.at, at));
  }

  async apply(batch: readonly Step[]): Promise<void> {
    this.calls.applies++;
    if (this.failNext !== undefined) {
      const message = this.failNext;
      this.failNext = undefined;
      throw new WorkbookFault(message, "protected");
    }
    for (const step of batch) {
      if (step.do === "add sheet") {
        if (this.sheets.has(step.sheet))
          throw new WorkbookFault(`There is a sheet "${step.sheet}" already.`, "occupied");
        this.addSheet(step.sheet);
      } else if (step.do === "write") this.put(step.at, step.values);
      else if (step.do === "widen table") {
        this.tables = this.tables.map((table) =>
          table.name === step.name ? { ...table, at: { ...step.at, columns: step.at.columns + step.by } } : table,
        );
      }
    }
    for (const listener of this.calculated) listener();
  }

  async selection(): Promise<Area> {
    return this.selected.sheet === "" ? { ...this.selected, sheet: this.active } : this.selected;
  }

  async select(at: Area): Promise<void> {
    this.selected = at;
    this.active = at.sheet;
    for (const listener of this.selections) listener(at);
  }

  onEdit(listener: (change: Area) => void): () => void {
    this.edits.add(listener);
    return () => this.edits.delete(listener);
  }

  onCalculated(listener: () => void): () => void {
    this.calculated.add(listener);
    return () => this.calculated.delete(listener);
  }

  onSelection(listener: (at: Area) => void): () => void {
    this.selections.add(listener);
    return () => this.selections.delete(listener);
  }

  /** What a person typing into a cell does. */
  edit(at: Area, values: readonly (readonly CellWrite[])[]): void {
    this.put(at, values);
    for (const listener of this.edits) listener(at);
  }

  /** Renames a sheet by hand, which no host tells of. */
  renameSheet(from: string, to: string): void {
    const all = [...this.sheets].map(([name, sheet]) => [name === from ? to : name, sheet] as const);
    this.sheets.clear();
    for (const [name, sheet] of all) this.sheets.set(name, sheet);
    if (this.active === from) this.active = to;
  }

  removeSheet(name: string): void {
    this.sheets.delete(name);
  }

  /** Moves a row down by hand and fills its place, which is no edit of the cells that move. */
  insertRow(sheet: string, row: number, values: readonly Cell[]): void {
    const { values: all, formulas } = this.sheet(sheet);
    all.splice(row, 0, [...values]);
    formulas.splice(row, 0, []);
  }

  addSheet(name: string, values: readonly (readonly Cell[])[] = []): void {
    this.sheets.set(name, { values: values.map((row) => [...row]), formulas: [] });
    if (this.active === "") this.active = name;
  }

  valueAt(sheet: string, row: number, column: number): Cell {
    return this.sheet(sheet).values[row]?.[column] ?? "";
  }

  private put(at: Area, cells: readonly (readonly CellWrite[])[]): void {
    const { values, formulas } = this.sheet(at.sheet);
    cells.forEach((line, r) =>
      line.forEach((cell, c) => {
        if (cell === undefined) return;
        const [row, column] = [at.row + r, at.column + c];
        const formula = typeof cell === "object" ? cell.formula : "";
        while (values.length <= row) values.push([]);
        const target = values[row]!;
        while (target.length <= column) target.push("");
        target[column] = typeof cell === "object" ? "" : cell;
        while (formulas.length <= row) formulas.push([]);
        formulas[row]![column] = formula;
      }),
    );
  }

  private sheet(name: string): { values: Cell[][]; formulas: string[][] } {
    const sheet = this.sheets.get(name);
    if (!sheet) throw new WorkbookFault(`There is no sheet "${name}".`, "missing");
    return sheet;
  }
}
