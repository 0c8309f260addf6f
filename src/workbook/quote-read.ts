import { isBlank, type Cell } from "../core/cell";
import { QUOTE_COLUMNS } from "../core/quote/quote-columns";
import { englishWord, spanishWord } from "../core/quote/shop-words";
import { plainName } from "./list-sheet";
import type { Area, ReadArea, Step, Workbook } from "./port";
import type { SheetLanguage } from "./sheet-language";

/** A quote as its own sheet shows it. */
export interface QuoteSheetRead {
  readonly lines: readonly QuotedLine[];
  /** The ways side by side, with what each comes to. */
  readonly ways: readonly { readonly name: string; readonly total: number | undefined }[];
  /** As it is worked out now; `undefined` while there is nothing to quote or nothing is calculated. */
  readonly total: number | undefined;
  /** Parts of the quote that have no price. */
  readonly missing: readonly string[];
  readonly language: SheetLanguage["code"];
  /** What was typed beside a label, by the English one; blanks left out. */
  readonly facts: ReadonlyMap<string, Cell>;
  /** Row of the lines' headers. */
  readonly head: number;
  /** The sheet's cells from its first on. */
  readonly cells: ReadArea;
  /** Value cell of each label, by the English one. */
  readonly places: ReadonlyMap<string, Area>;
}

export interface QuotedLine {
  readonly kind: string;
  readonly partNumber: string;
  readonly description: string;
  readonly quantity: number;
  readonly net: number;
  readonly note: string;
}

const HEAD = QUOTE_COLUMNS.map(plainName);
const COLUMN = { kind: 0, partNumber: 1, description: 2, quantity: 3, net: 5, note: 7 } as const;

/** Reads a quote back from its sheet; `undefined` where the sheet is gone or no quote. */
export async function readQuoteSheet(workbook: Workbook, sheet: string): Promise<QuoteSheetRead | undefined> {
  if (!(await workbook.sheetNames()).includes(sheet)) return undefined;
  const used = await workbook.usedArea(sheet);
  return locateQuote(sheet, await workbook.read({ ...used, columns: Math.max(used.columns, HEAD.length) }));
}

function locateQuote(sheet: string, cells: ReadArea): QuoteSheetRead | undefined {
  const { values } = cells;
  const says = (row: readonly Cell[], as: (text: string) => string) =>
    HEAD.every((text, c) => plainName(as(String(row[c] ?? ""))) === text);
  const head = values.findIndex((row) => says(row, englishWord));
  return head < 0 ? undefined : readQuote(sheet, cells, head, says(values[head]!, String) ? "en" : "es");
}

function readQuote(sheet: string, cells: ReadArea, head: number, language: SheetLanguage["code"]): QuoteSheetRead {
  const { values } = cells;
  const facts = new Map<string, Cell>();
  const places = new Map<string, Area>();
  values.slice(0, head).forEach(([label, value], row) => {
    const name = typeof label === "string" ? englishWord(label.trim()) : "";
    if (name === "" || places.has(name)) return;
    places.set(name, { sheet, row, column: 1, rows: 1, columns: 1 });
    if (!isBlank(value)) facts.set(name, value);
  });
  const text = (row: readonly Cell[], column: number) => String(row[column] ?? "").trim();
  const number = (row: readonly Cell[], column: number) => {
    const value = row[column];
    return typeof value === "number" ? value : undefined;
  };
  const below = values.slice(head + 1);
  const ofKind = (kind: string) => below.filter((row) => englishWord(text(row, COLUMN.kind)) === kind);
  return {
    language,
    // Lines are what has a quantity; totals and ways have none.
    lines: below.flatMap((row) => {
      const [quantity, net] = [number(row, COLUMN.quantity), number(row, COLUMN.net)];
      if (quantity === undefined || net === undefined) return [];
      const [kind, partNumber, description] = [COLUMN.kind, COLUMN.partNumber, COLUMN.description].map((c) =>
        text(row, c),
      ) as [string, string, string];
      return [{ kind: englishWord(kind), partNumber, description, quantity, net, note: text(row, COLUMN.note) }];
    }),
    ways: ofKind("way").map((row) => ({
      name: text(row, COLUMN.description).replace(/^\d+\.\s*/u, ""),
      total: number(row, COLUMN.net),
    })),
    total: ofKind("total").map((row) => number(row, COLUMN.net))[0],
    missing: ofKind("no price").map((row) => text(row, COLUMN.description)),
    facts,
    head,
    cells,
    places,
  };
}

/** Writes values beside labels of a quote's sheet; labels that are not there any more are left out. */
export function quoteFactSteps(
  { places }: Pick<QuoteSheetRead, "places">,
  facts: Readonly<Record<string, string | number>>,
): readonly Step[] {
  return Object.entries(facts).flatMap(([label, value]): Step[] => {
    const at = places.get(label);
    return at ? [{ do: "write", at, values: [[value]] }] : [];
  });
}

/** A word of a sheet as its language has it, by the English one. */
export function wordOn({ language }: Pick<QuoteSheetRead, "language">, english: string): string {
  return language === "es" ? spanishWord(english) : english;
}
