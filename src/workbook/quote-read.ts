import { isBlank, type Block, type Cell } from "../core/cell";
import { plainName } from "./list-sheet";
import type { Area, Step, Workbook } from "./port";

/** A quote as its own sheet shows it. */
export interface QuoteSheetRead {
  readonly lines: readonly QuotedLine[];
  /** The ways side by side, with what each comes to. */
  readonly ways: readonly { readonly name: string; readonly total: number | undefined }[];
  /** As it is worked out now; `undefined` while there is nothing to quote or nothing is calculated. */
  readonly total: number | undefined;
  /** Parts of the quote that have no price. */
  readonly missing: readonly string[];
  /** What was typed beside a label; blanks left out. */
  readonly facts: ReadonlyMap<string, Cell>;
  /** Value cell of each label. */
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

const HEAD = ["Kind", "Part number", "Description", "Quantity", "Unit price", "Net", "Tax", "Note"].map(plainName);
const COLUMN = { kind: 0, partNumber: 1, description: 2, quantity: 3, net: 5, note: 7 } as const;

/** Reads a quote back from its sheet; `undefined` where the sheet is gone or no quote. */
export async function readQuoteSheet(workbook: Workbook, sheet: string): Promise<QuoteSheetRead | undefined> {
  if (!(await workbook.sheetNames()).includes(sheet)) return undefined;
  const used = await workbook.usedArea(sheet);
  const { values } = await workbook.read({ ...used, columns: Math.max(used.columns, HEAD.length) });
  return locateQuote(sheet, values);
}

function locateQuote(sheet: string, values: Block): QuoteSheetRead | undefined {
  const head = values.findIndex((row) => HEAD.every((text, c) => plainName(String(row[c] ?? "")) === text));
  if (head < 0) return undefined;
  const facts = new Map<string, Cell>();
  const places = new Map<string, Area>();
  values.slice(0, head).forEach(([label, value], row) => {
    if (typeof label !== "string" || label.trim() === "" || places.has(label.trim())) return;
    places.set(label.trim(), { sheet, row, column: 1, rows: 1, columns: 1 });
    if (!isBlank(value)) facts.set(label.trim(), value);
  });
  const text = (row: readonly Cell[], column: number) => String(row[column] ?? "").trim();
  const number = (row: readonly Cell[], column: number) => {
    const value = row[column];
    return typeof value === "number" ? value : undefined;
  };
  const below = values.slice(head + 1);
  const ofKind = (kind: string) => below.filter((row) => text(row, COLUMN.kind) === kind);
  return {
    // Lines are what has a quantity; totals and ways have none.
    lines: below.flatMap((row) => {
      const [quantity, net] = [number(row, COLUMN.quantity), number(row, COLUMN.net)];
      if (quantity === undefined || net === undefined) return [];
      const [kind, partNumber, description] = [COLUMN.kind, COLUMN.partNumber, COLUMN.description].map((c) =>
        text(row, c),
      ) as [string, string, string];
      return [{ kind, partNumber, description, quantity, net, note: text(row, COLUMN.note) }];
    }),
    ways: ofKind("way").map((row) => ({
      name: text(row, COLUMN.description).replace(/^\d+\.\s*/u, ""),
      total: number(row, COLUMN.net),
    })),
    total: ofKind("total").map((row) => number(row, COLUMN.net))[0],
    missing: ofKind("no price").map((row) => text(row, COLUMN.description)),
    facts,
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
