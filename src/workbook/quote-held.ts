import { isBlank, isCellError, type Cell } from "../core/cell";
import { QUOTE_COLUMNS } from "../core/quote/quote-columns";
import type { CellWrite, Step } from "./port";
import { lineFormula } from "./quote-plan";
import type { QuoteSheetRead } from "./quote-read";

/** Less than the smallest coin of any currency: what sums of rounded lines may differ by in floating point. */
const SAME_MONEY = 0.0005;
const COLUMNS = QUOTE_COLUMNS.length;
const QUOTING = /CHG[._]QUOTE\(/iu;

/**
 * Keeps the lines of a quote as the customer answered to them, whatever becomes of job, prices and terms, or
 * lets them follow again. A quote that no longer comes to what was quoted is left as it is: its lines are others.
 *
 * @param count - Rows that the lines take on paper
 * @param held - Whether the customer has answered
 */
export function holdLines(sheet: string, quote: QuoteSheetRead, count: number, held: boolean): readonly Step[] {
  const values = held ? givenLines(quote, count) : followingLines(quote, count);
  if (!values) return [];
  return [
    { do: "write", at: { sheet, row: quote.head + 1, column: 0, rows: values.length, columns: COLUMNS }, values },
  ];
}

function givenLines({ facts, total, head, cells }: QuoteSheetRead, count: number): CellWrite[][] | undefined {
  const quoted = facts.get("Quoted total");
  if (typeof quoted !== "number" || !(Math.abs(quoted - (total ?? NaN)) < SAME_MONEY)) return undefined;
  const lines = cells.values.slice(head + 1, head + 1 + count).map((row) => row.slice(0, COLUMNS));
  return lines.flat().some(isCellError) ? undefined : lines.map((row) => row.map(asTyped));
}

function followingLines({ cells: { formulas } }: QuoteSheetRead, count: number): CellWrite[][] | undefined {
  const row = formulas.findIndex((line) => line.some((formula) => QUOTING.test(formula)));
  if (row < 0) return undefined;
  const column = formulas[row]!.findIndex((formula) => QUOTING.test(formula));
  const answer = { row, column };
  return Array.from({ length: count }, (_, line) =>
    Array.from({ length: COLUMNS }, (_cell, c) => ({ formula: lineFormula(answer, line, c) })),
  );
}

function asTyped(value: Cell): CellWrite {
  return isBlank(value) || isCellError(value) ? "" : (value as string | number | boolean);
}
