import type { Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import type { Money } from "./money";
import type { Say } from "../words/language";
import { inEnglish } from "./language";
import { plain } from "./price-list";
import type { Alternative, Quote } from "./quote";
import { QUOTE_COLUMNS } from "./quote-columns";
import type { Terms } from "./terms";

/**
 * A quote as cells: reason, header, lines, totals, what has no price, and the ways side by side.
 *
 * @param wanted - Name or number (from 1) of the alternative; blank takes the first
 * @param say - Language of the cells; the shop's own words stay as they are
 */
export function quoteCells(quote: Quote, terms: Terms, wanted: string, say: Say = inEnglish): Result<Cell[][]> {
  const chosen = choose(quote.alternatives, wanted, say);
  if (!chosen.ok) return chosen;
  const amountRow = (kind: string, words: string, amount: Money) =>
    row([say(kind), "", say(words), "", "", amount.toNumber()]);
  const out: Cell[][] = [row(["", "", say(quote.reason)])];
  const alternative = chosen.value;
  if (alternative) {
    out.push(QUOTE_COLUMNS.map(say));
    for (const l of alternative.lines) {
      out.push([
        say(l.kind),
        l.partNumber,
        l.kind === "part" || l.kind === "material" ? l.description : say(l.description),
        l.quantity.toNumber(),
        l.unitPrice.toNumber(),
        l.net.toNumber(),
        terms.taxOn === "line" ? l.tax.toNumber() : "",
        say(l.note),
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
    for (const missing of alternative.missing) out.push(row([say("no price"), "", say(missing)]));
    out.push(row(["", "", say(`Valid for ${terms.validDays} days.`)]));
  }
  quote.alternatives.forEach((way, i) => {
    const note = [way === alternative ? "quoted here" : "", ...way.missing].filter(Boolean).map(say).join("; ");
    out.push(row([say("way"), "", `${i + 1}. ${say(way.name)}`, "", "", way.total.toNumber(), "", note]));
  });
  const { issues } = quote;
  const told =
    issues.length > MOST_TOLD ? [...issues.slice(0, MOST_TOLD), `${issues.length - MOST_TOLD} more`] : issues;
  for (const issue of told) out.push(row([say("price list"), "", say(issue)]));
  return ok(out);
}

/** A customer reads these cells too: a supplier's long list must not fill the page with what is wrong in it. */
const MOST_TOLD = 5;

/** @returns `undefined` where there is nothing to choose from; a fault that lists the ways where none is meant */
export function choose(
  alternatives: readonly Alternative[],
  wanted: string,
  say: Say = inEnglish,
): Result<Alternative | undefined> {
  if (wanted === "" || alternatives.length === 0) return ok(alternatives[0]);
  const named = ({ name }: Alternative) => [name, say(name)].some((text) => plain(text) === plain(wanted));
  const found = alternatives.find(named) ?? alternatives[Number(wanted) - 1];
  return found
    ? ok(found)
    : fail({
        code: "not-understood",
        what: "alternative",
        came: wanted,
        expected: `a number from 1 to ${alternatives.length}, or one of: ${alternatives.map((a) => say(a.name)).join("; ")}`,
      });
}

function row(cells: readonly Cell[]): Cell[] {
  return QUOTE_COLUMNS.map((_, i) => cells[i] ?? "");
}
