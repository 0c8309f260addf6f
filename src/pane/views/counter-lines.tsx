/** @jsxImportSource preact */
import type { JSX } from "preact";
import { TAXED, type QuoteLine } from "../../core/quote/lines";
import type { Alternative } from "../../core/quote/quote";
import type { Terms } from "../../core/quote/terms";
import type { SayMoney } from "../counter-money";
import { useCounterWords, type WordsAtCounter } from "../words/counter-words";

interface LinesProps {
  readonly way: Alternative;
  readonly terms: Terms;
  readonly say: SayMoney;
}

/** The lines of one way, adding up to its total as they are printed. */
export function CounterLines({ way, terms, say }: LinesProps): JSX.Element {
  const words = useCounterWords();
  const { quote } = words.counter;
  const quantity = new Intl.NumberFormat(words.language.code, { maximumFractionDigits: 2 });
  const sum = (label: string, amount: Alternative["net"], strong = false) => (
    <tr class={strong ? "cw-counter-total" : ""}>
      <th scope="row" colSpan={2}>
        {label}
      </th>
      <td>{say(amount)}</td>
    </tr>
  );
  return (
    <>
      <table class="cw-counter-lines">
        <caption>{words.said(way.name)}</caption>
        <thead>
          <tr>
            <th scope="col">{quote.item}</th>
            <th scope="col">{quote.quantity}</th>
            <th scope="col">{quote.net}</th>
          </tr>
        </thead>
        <tbody>
          {way.lines.map((line, i) => (
            <tr key={i}>
              <th scope="row">
                {describe(line, words)} <small>{about(line, words)}</small>
              </th>
              <td>
                {quantity.format(line.quantity.toNumber())}
                {TAXED[line.kind] === "labour" ? " h" : ""}
              </td>
              <td>{say(line.net)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          {sum(quote.net, way.net)}
          {sum(quote.tax, way.tax)}
          {way.rounding.eq(0) ? null : sum(quote.rounding, way.rounding)}
          {sum(way.missing.length > 0 ? quote.incomplete : quote.total, way.total, true)}
        </tfoot>
      </table>
      {way.missing.length > 0 ? (
        <p class="cw-warning">
          {quote.missing}: {way.missing.map((gap) => words.said(gap)).join("; ")}.
        </p>
      ) : null}
      <p class="cw-meta">{quote.valid(terms.validDays)}</p>
    </>
  );
}

/** Parts by the shop's own words; work by what it is. */
function describe({ kind, description }: QuoteLine, words: WordsAtCounter): string {
  return kind === "part" || kind === "material" ? description : words.said(description);
}

function about({ kind, partNumber, note }: QuoteLine, words: WordsAtCounter): string {
  return [partNumber || (kind === "labour" ? words.counter.quote.labour : ""), words.said(note)]
    .filter(Boolean)
    .join(" · ");
}
