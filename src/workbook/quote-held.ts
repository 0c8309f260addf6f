import { isBlank, isCellError, type Cell } from "../core/cell";
import { QUOTE_COLUMNS } from "../core/quote/quote-columns";
import type { Area, Step, Workbook } from "./port";
import { lineFormula } from "./quote-plan";
import type { QuoteSheetRead } from "./quote-read";
import { templateOf } from "./templates";

/** Less than the smallest coin of any currency: what sums of rounded lines may differ by in floating point. */
const SAME_MONEY = 0.0005;
const QUOTING = /CHG[._]QUOTE\(/iu;

/**
 * Keeps the lines of a quote as the customer answered to them, whatever becomes of job, prices and terms, or
 * lets them follow again. A quote that no longer comes to what was quoted is left as it is: its lines are others.
 *
 * @param held - Whether the customer has answered
 */
export async function holdLines(
  workbook: Workbook,
  sheet: string,
  quote: QuoteSheetRead,
  held: boolean,
): Promise<readonly Step[]> {
  const template = templateOf("quote");
  const lines: Area = {
    sheet,
    row: quote.head + 1,
    column: 0,
    rows: template?.kind === "quote" ? template.lines : 0,
    columns: QUOTE_COLUMNS.length,
  };
  if (held) {
    const quoted = quote.facts.get("Quoted total");
    if (typeof quoted !== "number" || !(Math.abs(quoted - (quote.total ?? NaN)) < SAME_MONEY)) return [];
    const { values } = await workbook.read(lines);
    if (values.flat().some(isCellError)) return [];
    return [{ do: "write", at: lines, values: values.map((row) => row.map(asTyped)) }];
  }
  const { formulas } = await workbook.read(await workbook.usedArea(sheet));
  const row = formulas.findIndex((line) => line.some((formula) => QUOTING.test(formula)));
  if (row < 0) return [];
  const column = formulas[row]!.findIndex((formula) => QUOTING.test(formula));
  const following = (line: number, c: number) => ({ formula: lineFormula({ row, column }, line, c) });
  return [
    {
      do: "write",
      at: lines,
      values: Array.from({ length: lines.rows }, (_, line) => QUOTE_COLUMNS.map((_name, c) => following(line, c))),
    },
  ];
}

function asTyped(value: Cell): string | number | boolean {
  return isBlank(value) || isCellError(value) ? "" : (value as string | number | boolean);
}
