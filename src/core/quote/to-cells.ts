import type { Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import type { Money } from "./money";
import { plain } from "./price-list";
import type { Alternative, Quote } from "./quote";
import type { Terms } from "./terms";

export const QUOTE_COLUMNS = [
  "Kind",
  "Part number",
  "Description",
  "Quantity",
  "Unit price",
  "Net",
  "Tax",
  "Note",
] as const;

/**
 * A quote as cells: reason, header, lines, totals, what has no price, and the ways side by side.
 *
 * @param wanted - Name or number (from 1) of the alternative; blank takes the first
 */
export function quoteCells(quote: Quote, terms: Terms, wanted: string): Result<Cell[][]> {
  const chosen = choose(quote.alternatives, wanted);
  if (!chosen.ok) return chosen;
  const out: Cell[][] = [row(["", "", quote.reason])];
  const alternative = chosen.value;
  if (alternative) {
    out.push([...QUOTE_COLUMNS]);
    for (const l of alternative.lines) {
      out.push([
        l.kind,
        l.partNumber,
        l.description,
        l.quantity.toNumber(),
        l.unitPrice.toNumber(),
        l.net.toNumber(),
        terms.taxOn === "line" ? l.tax.toNumber() : "",
        l.note,
      ]);
    }
    const whole = alternative.missing.length === 0;
    const { currency, smallestCoin } = terms.money;
    out.push(amountRow("net", "Net", alternative.net));
    out.push(amountRow("tax", "Tax", alternative.tax));
    if (smallestCoin && !alternative.rounding.eq(0)) {
      out.push(amountRow("rounding", `Rounding to ${smallestCoin.toFixed()}`, alternative.rounding));
    }
    const totalOf = whole ? `Total ${currency}` : `Total ${currency} without what has no price`;
    out.push(amountRow("total", totalOf, alternative.total));
    for (const missing of alternative.missing) out.push(row(["no price", "", missing]));
    out.push(row(["", "", `Valid for ${terms.validDays} days.`]));
  }
  quote.alternatives.forEach((way, i) => {
    const note = [way === alternative ? "quoted here" : "", ...way.missing].filter(Boolean).join("; ");
    out.push(row(["way", "", `${i + 1}. ${way.name}`, "", "", way.total.toNumber(), "", note]));
  });
  for (const issue of quote.issues) out.push(row(["price list", "", issue]));
  return ok(out);
}

function amountRow(kind: string, words: string, amount: Money): Cell[] {
  return row([kind, "", words, "", "", amount.toNumber()]);
}

/** @returns `undefined` where there is nothing to choose from; a fault that lists the ways where none is meant */
export function choose(alternatives: readonly Alternative[], wanted: string): Result<Alternative | undefined> {
  if (wanted === "" || alternatives.length === 0) return ok(alternatives[0]);
  const found = alternatives.find((a) => plain(a.name) === plain(wanted)) ?? alternatives[Number(wanted) - 1];
  return found
    ? ok(found)
    : fail({
        code: "not-understood",
        what: "alternative",
        came: wanted,
        expected: `a number from 1 to ${alternatives.length}, or one of: ${alternatives.map((a) => a.name).join("; ")}`,
      });
}

function row(cells: readonly Cell[]): Cell[] {
  return QUOTE_COLUMNS.map((_, i) => cells[i] ?? "");
}
