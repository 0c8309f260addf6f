/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { isCellError, type Cell } from "../core/cell";
import { languageOfQuote } from "../core/quote/language";
import { quoteFromCells } from "../core/quote/quote-from-cells";
import { sentenceCase } from "../core/sentence-case";
import { toBlock, wordOf } from "./arguments";
import { blockOrFault } from "./over-cells";
import type { FunctionTable } from "./function-table";

/**
 * A quote from a verdict and the shop's own prices: lines, tax and totals in exact decimal money. A part that is not proven faulty is not sold: the further check is quoted, with the reason.
 * @customfunction QUOTE
 * @param verdict Cells of CHG.VERDICT: part, state, chance, sentence
 * @param prices Prices sheet with its header row: part number, description, use, condition, fits, price or cost and margin, core charge, deposit, stock, lead days, superseded by
 * @param [terms] Terms sheet, label and value: labour rate, tax on parts, tax on labour, rounding, currency and so on
 * @param [alternative] Name or number of the way to quote; the first one where blank
 * @param [nextCheck] Cells of CHG.NEXTCHECK, priced while the part is only suspect
 * @param [job] Label and value, over those of the terms: machine, part number, regulator part number, stator part number, diagnosis minutes, warranty (the reason)
 * @param [causes] Cells of CHG.CAUSES: only the ways that put these faults right are quoted; every way of the part where blank
 * @param [language] What the lines are said in: en (default) or es; words of the shop's own stay as they are
 * @returns Reason, lines and totals, eight columns wide; blank while there is no verdict
 * @example =CHG.QUOTE({"stator","faulty",0.97,"Stator: faulty (97 %)."}, {"Part number","Description","Use","Price";"ST-1","Stator","stator",120}) gives blank, blank and the reason, then the lines and totals
 */
export function quote(
  verdict: any[][],
  prices: any[][],
  terms?: any[][],
  alternative?: any[][],
  nextCheck?: any[][],
  job?: any[][],
  causes?: any[][],
  language?: any[][],
): any[][] {
  const cells = blockOrFault(
    quoteFromCells(toBlock(verdict), toBlock(prices), toBlock(terms), {
      alternative: wordOf(alternative),
      nextCheck: toBlock(nextCheck),
      job: toBlock(job),
      causes: toBlock(causes),
      language: wordOf(language),
    }),
  );
  return saidIn(languageOfQuote(wordOf(language)), cells);
}

/** Errors are told in the language of the lines, which are said already. */
function saidIn(say: ReturnType<typeof languageOfQuote>, cells: Cell[][]): Cell[][] {
  const cell = cells[0]?.[0];
  if (!say.ok || !isCellError(cell) || cell.message === undefined) return cells;
  return [[{ ...cell, message: say.value(sentenceCase(cell.message)) }]];
}

export const quoteFunctions = { QUOTE: quote } satisfies FunctionTable;
