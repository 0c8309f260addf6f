import type { Area, CellFormat, CellWrite, ColourRule, PrintSetup, Step, ValidationRule } from "./port";
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

  /** Fills rows from `first` on, each with its values by column id. */
  fill(first: number, ids: readonly string[], rows: readonly Readonly<Record<string, string | number>>[]): void {
    rows.forEach((row, r) => {
      for (const [id, value] of Object.entries(row)) {
        const column = ids.indexOf(id);
        if (column < 0) throw new Error(`${this.sheet}: no column for "${id}".`);
        this.put(first + r, column, value);
      }
    });
  }

  format(at: Rectangle, format: CellFormat): this {
    this.#reach(at.row + at.rows, at.column + at.columns);
    return this.step({ do: "format", at: this.area(at), format });
  }

  merge(at: Rectangle): this {
    return this.step({ do: "merge", at: this.area(at) });
  }

  validate(at: Rectangle, rule: ValidationRule): this {
    return this.step({ do: "validate", at: this.area(at), rule });
  }

  colour(at: Rectangle, rule: ColourRule): this {
    return this.step({ do: "colour rule", at: this.area(at), rule });
  }

  width(column: number, characters: number): this {
    return this.step({ do: "column width", sheet: this.sheet, column, characters });
  }

  height(row: number, points: number): this {
    return this.step({ do: "row height", sheet: this.sheet, row, points });
  }

  freeze(rows: number, columns: number): this {
    return this.step({ do: "freeze", sheet: this.sheet, rows, columns });
  }

  /** Prints so many columns and rows from A1, one page wide; `title` stands at the foot of every page. */
  print(
    columns: number,
    rows: number,
    { orientation, ...setup }: Omit<PrintSetup, "fitWidthPages" | "footer">,
    title?: string,
  ): this {
    const footer = title === undefined ? {} : { footer: `${title.replaceAll("&", "&&")}   &P / &N` };
    const at = this.area(stretch(0, 0, columns, rows));
    return this.step({ do: "print", at, setup: { orientation, fitWidthPages: 1, ...setup, ...footer } });
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
