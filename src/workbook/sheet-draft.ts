import type { Area, CellFormat, CellWrite, ColourRule, Step, ValidationRule } from "./port";
import { ENGLISH, type SheetLanguage } from "./sheet-language";

type Rectangle = Omit<Area, "sheet">;

/** A sheet being drawn up: contents first, then what lies on them. Gives the steps of one batch. */
export class SheetDraft {
  readonly #cells = new Map<string, CellWrite>();
  readonly #after: Step[] = [];
  #rows = 0;
  #columns = 0;

  constructor(
    readonly sheet: string,
    readonly language: SheetLanguage = ENGLISH,
  ) {}

  /** A text of the catalogue in the language of the sheet. */
  say(english: string): string {
    return this.language.say(english);
  }

  put(row: number, column: number, content: CellWrite): this {
    this.#cells.set(`${row},${column}`, content);
    this.#reach(row + 1, column + 1);
    return this;
  }

  format(at: Rectangle, format: CellFormat): this {
    this.#reach(at.row + at.rows, at.column + at.columns);
    this.#after.push({ do: "format", at: this.area(at), format });
    return this;
  }

  merge(at: Rectangle): this {
    this.#after.push({ do: "merge", at: this.area(at) });
    return this;
  }

  validate(at: Rectangle, rule: ValidationRule): this {
    this.#after.push({ do: "validate", at: this.area(at), rule });
    return this;
  }

  colour(at: Rectangle, rule: ColourRule): this {
    this.#after.push({ do: "colour rule", at: this.area(at), rule });
    return this;
  }

  width(column: number, characters: number): this {
    this.#after.push({ do: "column width", sheet: this.sheet, column, characters });
    return this;
  }

  height(row: number, points: number): this {
    this.#after.push({ do: "row height", sheet: this.sheet, row, points });
    return this;
  }

  step(step: Step): this {
    this.#after.push(step);
    return this;
  }

  area({ row, column, rows, columns }: Rectangle): Area {
    return { sheet: this.sheet, row, column, rows, columns };
  }

  /** Everything the sheet covers, from A1. */
  whole(): Area {
    return this.area({ row: 0, column: 0, rows: this.#rows, columns: this.#columns });
  }

  /** One write, then the rest in the order in which it was drawn. */
  steps(): Step[] {
    const whole = this.whole();
    const values = Array.from({ length: whole.rows }, (_, r) =>
      Array.from({ length: whole.columns }, (_, c) => this.#cells.get(`${r},${c}`)),
    );
    return [{ do: "write", at: whole, values }, ...this.#after];
  }

  #reach(rows: number, columns: number): void {
    this.#rows = Math.max(this.#rows, rows);
    this.#columns = Math.max(this.#columns, columns);
  }
}

/** One row's stretch of cells. */
export function stretch(row: number, column: number, columns: number, rows = 1): Rectangle {
  return { row, column, rows, columns };
}

/** Lines that `text` takes in `characters` of the standard 11-point width, set in `size` points. */
export function linesOf(text: string, characters: number, size: number): number {
  const perLine = Math.max(6, Math.floor((characters * 11 * 1.1) / size));
  let lines = 1;
  let used = 0;
  for (const word of text.split(" ")) {
    if (used > 0 && used + 1 + word.length > perLine) {
      lines += 1;
      used = word.length;
    } else used += (used > 0 ? 1 : 0) + word.length;
  }
  return lines;
}
