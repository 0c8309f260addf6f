import { areaName, overlaps } from "../../workbook/address";
import {
  WorkbookFault,
  type Area,
  type CellFormat,
  type CellWrite,
  type ChartPlan,
  type ColourRule,
  type PrintSetup,
  type Step,
  type ValidationRule,
} from "../../workbook/port";

/** What stands in a cell: a value, or a formula with its leading `=`. */
export type Content = Exclude<CellWrite, undefined>;

/** A sheet being built in memory. */
export class SheetModel {
  readonly cells = new Map<number, Map<number, Content>>();
  readonly formats = new Map<number, Map<number, CellFormat>>();
  readonly widths = new Map<number, number>();
  readonly heights = new Map<number, number>();
  readonly merges: Area[] = [];
  readonly validations: { at: Area; rule: ValidationRule }[] = [];
  readonly rules: { at: Area; rule: ColourRule }[] = [];
  readonly tables: { at: Area; name: string }[] = [];
  readonly charts: ChartPlan[] = [];
  freeze?: { rows: number; columns: number };
  print?: { at: Area; setup: PrintSetup };

  constructor(readonly name: string) {}

  content(row: number, column: number): Content | undefined {
    return this.cells.get(row)?.get(column);
  }

  put(row: number, column: number, content: Content): void {
    const line = this.cells.get(row) ?? new Map<number, Content>();
    this.cells.set(row, line);
    if (content === "") line.delete(column);
    else line.set(column, content);
  }

  format(at: Area, format: CellFormat): void {
    for (let row = at.row; row < at.row + at.rows; row++) {
      const line = this.formats.get(row) ?? new Map<number, CellFormat>();
      this.formats.set(row, line);
      for (let column = at.column; column < at.column + at.columns; column++)
        line.set(column, { ...line.get(column), ...format });
    }
  }

  /** Cells with content, row by row. */
  *filled(): Generator<{ row: number; column: number; content: Content }> {
    for (const row of [...this.cells.keys()].sort((a, b) => a - b)) {
      const line = this.cells.get(row)!;
      for (const column of [...line.keys()].sort((a, b) => a - b)) yield { row, column, content: line.get(column)! };
    }
  }
}

/** A workbook being built in memory; every batch is applied whole or not at all. */
export class BookModel {
  readonly sheets: SheetModel[] = [];
  readonly names: { name: string; at: Area }[] = [];

  sheet(name: string): SheetModel {
    const found = this.find(name);
    if (!found) throw new WorkbookFault(`There is no sheet "${name}".`, "missing");
    return found;
  }

  find(name: string): SheetModel | undefined {
    return this.sheets.find((sheet) => sheet.name.toUpperCase() === name.toUpperCase());
  }

  /** Looks at every step first: what is applied afterwards cannot fail. */
  apply(batch: readonly Step[]): void {
    this.#check(batch);
    for (const step of batch) this.#do(step);
  }

  #check(batch: readonly Step[]): void {
    const names = new Set(this.sheets.map(({ name }) => name.toUpperCase()));
    const tables = this.sheets.flatMap((sheet) => sheet.tables);
    const merged = new Map(this.sheets.map(({ name, merges }) => [name.toUpperCase(), [...merges]]));
    for (const step of batch) {
      if (step.do === "add sheet") {
        checkSheetName(step.sheet);
        if (names.has(step.sheet.toUpperCase()))
          throw new WorkbookFault(`There is already a sheet "${step.sheet}".`, "occupied");
        names.add(step.sheet.toUpperCase());
        merged.set(step.sheet.toUpperCase(), []);
        continue;
      }
      const sheet = "at" in step ? step.at.sheet : step.sheet;
      if (!names.has(sheet.toUpperCase())) throw new WorkbookFault(`There is no sheet "${sheet}".`, "missing");
      if (step.do === "write" && !hasShape(step.values, step.at)) {
        throw new WorkbookFault(`The values do not have the shape of ${areaName(step.at)}.`, "host");
      }
      if (step.do === "table") {
        const twin = tables.find(({ name }) => name.toUpperCase() === step.name.toUpperCase());
        if (twin) throw new WorkbookFault(`There is already a table "${twin.name}".`, "occupied");
        const other = tables.find(
          ({ at }) => at.sheet.toUpperCase() === step.at.sheet.toUpperCase() && overlaps(at, step.at),
        );
        if (other)
          throw new WorkbookFault(
            `The cells ${areaName(step.at)} cannot be a table: they overlap the table "${other.name}".`,
            "occupied",
          );
        tables.push({ name: step.name, at: step.at });
      }
      if (step.do === "widen table") {
        const table = tables.find(({ name }) => name.toUpperCase() === step.name.toUpperCase());
        if (!table) throw new WorkbookFault(`There is no table "${step.name}".`, "missing");
        const wide = { ...step.at, columns: step.at.columns + step.by };
        const other = tables.find(
          (one) => one !== table && one.at.sheet.toUpperCase() === sheet.toUpperCase() && overlaps(one.at, wide),
        );
        if (other) throw new WorkbookFault(`The table "${other.name}" is beside "${table.name}".`, "occupied");
      }
      if (step.do === "merge") {
        const others = merged.get(sheet.toUpperCase())!;
        const other = others.find((area) => overlaps(area, step.at) && !same(area, step.at));
        if (other)
          throw new WorkbookFault(
            `The cells ${areaName(step.at)} cannot be merged: they overlap ${areaName(other)}.`,
            "merged",
          );
        others.push(step.at);
      }
    }
  }

  #do(step: Step): void {
    switch (step.do) {
      case "add sheet":
        this.sheets.push(new SheetModel(step.sheet));
        return;
      case "write": {
        const sheet = this.sheet(step.at.sheet);
        step.values.forEach((line, r) =>
          line.forEach((content, c) => {
            if (content !== undefined) sheet.put(step.at.row + r, step.at.column + c, content);
          }),
        );
        return;
      }
      case "format":
        return this.sheet(step.at.sheet).format(step.at, step.format);
      case "validate":
        return void this.sheet(step.at.sheet).validations.push({ at: step.at, rule: step.rule });
      case "colour rule":
        return void this.sheet(step.at.sheet).rules.push({ at: step.at, rule: step.rule });
      case "merge": {
        const { merges } = this.sheet(step.at.sheet);
        if (!merges.some((area) => same(area, step.at))) merges.push(step.at);
        return;
      }
      case "column width":
        return void this.sheet(step.sheet).widths.set(step.column, step.characters);
      case "row height":
        return void this.sheet(step.sheet).heights.set(step.row, step.points);
      case "freeze":
        this.sheet(step.sheet).freeze = { rows: step.rows, columns: step.columns };
        return;
      case "print":
        this.sheet(step.at.sheet).print = { at: step.at, setup: step.setup };
        return;
      case "table":
        return void this.sheet(step.at.sheet).tables.push({ at: step.at, name: step.name });
      case "widen table": {
        const table = this.sheet(step.at.sheet).tables.find(
          (one) => one.name.toUpperCase() === step.name.toUpperCase(),
        );
        if (table) table.at = { ...step.at, columns: step.at.columns + step.by };
        return;
      }
      case "name": {
        const known = this.names.findIndex(({ name }) => name.toUpperCase() === step.name.toUpperCase());
        if (known >= 0) this.names.splice(known, 1);
        this.names.push({ name: step.name, at: step.at });
        return;
      }
      case "chart":
        return void this.sheet(step.sheet).charts.push(step.chart);
    }
  }
}

function checkSheetName(name: string): void {
  if (name.trim() === "" || name.length > 31 || /[\\/?*[\]:]|^'|'$/u.test(name)) {
    throw new WorkbookFault(
      `"${name}" cannot name a sheet: at most 31 characters, none of \\ / ? * [ ] :`,
      "unsupported",
    );
  }
}

export function hasShape(values: readonly (readonly unknown[])[], at: Area): boolean {
  return values.length === at.rows && values.every((line) => line.length === at.columns);
}

function same(a: Area, b: Area): boolean {
  return a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;
}
