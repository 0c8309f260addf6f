import type { Block, Cell } from "../cell";
import { ok, type Result } from "../result";
import { verdictFromCells } from "./from-verdict-cells";
import { languageOfQuote } from "./language";
import { quoteFromSheets } from "./quote-from-sheets";
import { quoteCells } from "./to-cells";

/** What a quote as cells is asked for, beside the verdict, the prices and the terms. */
export interface QuoteWishes {
  /** Name or number of the way to quote; the first where blank. */
  readonly alternative?: string;
  /** Cells of NEXTCHECK. */
  readonly nextCheck?: Block;
  /** What is known of this job, in rows like those of the terms and over them. */
  readonly job?: Block;
  /** Cells of CAUSES: what of the part is to be put right. */
  readonly causes?: Block;
  /** `en` or `es`; English where blank. */
  readonly language?: string;
}

/**
 * A quote from sheets to a sheet: the cells of the verdict, the Prices and the Terms sheet.
 *
 * @returns A blank cell while there is no verdict
 */
export function quoteFromCells(
  verdict: Block,
  prices: Block,
  terms: Block,
  { alternative = "", nextCheck = [], job = [], causes = [], language = "" }: QuoteWishes = {},
): Result<Cell[][]> {
  const say = languageOfQuote(language);
  if (!say.ok) return say;
  const read = verdictFromCells(verdict, nextCheck, causes);
  if (!read.ok) return read;
  if (read.value === null) return ok([[""]]);
  const priced = quoteFromSheets(read.value, prices, terms, job);
  return priced.ok ? quoteCells(priced.value.quote, priced.value.terms, alternative, say.value) : priced;
}
