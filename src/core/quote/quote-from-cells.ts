import type { Block, Cell } from "../cell";
import { ok, type Result } from "../result";
import { verdictFromCells } from "./from-verdict-cells";
import { readPriceList } from "./price-list";
import { quote, type Quote, type QuotedVerdict } from "./quote";
import { readTerms, type Terms } from "./terms";
import { quoteCells } from "./to-cells";

/**
 * A quote from sheets to a sheet: the cells of the verdict, the Prices and the Terms sheet.
 *
 * @param job - What is known of this job, in rows like those of the terms and over them
 * @param causes - Cells of CAUSES: what of the part is to be put right
 * @returns A blank cell while there is no verdict
 */
export function quoteFromCells(
  verdict: Block,
  prices: Block,
  terms: Block,
  alternative: string,
  nextCheck: Block,
  job: Block = [],
  causes: Block = [],
): Result<Cell[][]> {
  const read = verdictFromCells(verdict, nextCheck, causes);
  if (!read.ok) return read;
  if (read.value === null) return ok([[""]]);
  const priced = quoteFromSheets(read.value, prices, terms, job);
  return priced.ok ? quoteCells(priced.value.quote, priced.value.terms, alternative) : priced;
}

/** A quote with the terms that it was worked out on. */
export interface PricedQuote {
  readonly quote: Quote;
  readonly terms: Terms;
}

/** Prices a verdict from the cells of the shop's sheets; `job` as in `quoteFromCells`. */
export function quoteFromSheets(
  verdict: QuotedVerdict,
  prices: Block,
  terms: Block,
  job: Block = [],
): Result<PricedQuote> {
  const list = readPriceList(prices);
  if (!list.ok) return list;
  const known = readTerms([...terms, ...job]);
  if (!known.ok) return known;
  return ok({ quote: quote(verdict, list.value, known.value), terms: known.value });
}
