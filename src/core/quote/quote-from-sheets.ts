import type { Block } from "../cell";
import { ok, type Result } from "../result";
import { once, sameBlock } from "../same-again";
import { readPriceList } from "./price-list";
import { quote, type Quote, type QuotedVerdict } from "./quote";
import { readTerms, type Terms } from "./terms";

/** A quote with the terms that it was worked out on. */
export interface PricedQuote {
  readonly quote: Quote;
  readonly terms: Terms;
}

/** A shop's prices stay while one job after the other is quoted. */
const lastPrices = once(
  ({ prices, currency }: { readonly prices: Block; readonly currency: string }) => readPriceList(prices, currency),
  (one, other) => one.currency === other.currency && sameBlock(one.prices, other.prices),
);

/**
 * Prices a verdict from the cells of the shop's sheets.
 *
 * @param job - What is known of this job, in rows like those of the terms and over them
 */
export function quoteFromSheets(
  verdict: QuotedVerdict,
  prices: Block,
  terms: Block,
  job: Block = [],
): Result<PricedQuote> {
  const known = readTerms(terms, job);
  if (!known.ok) return known;
  const list = lastPrices({ prices, currency: known.value.money.currency });
  if (!list.ok) return list;
  return ok({ quote: quote(verdict, list.value, known.value), terms: known.value });
}
