/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useMemo, useState } from "preact/hooks";
import type { Verdict } from "../../core/diagnosis/diagnose";
import type { PartState } from "../../core/judgement/types";
import { plain } from "../../core/quote/price-list";
import { readTerms } from "../../core/quote/terms";
import type { Part } from "../../core/readings/types";
import { expiredOn, type Decision, type QuoteRow } from "../../workbook/quote-record";
import { useQuoteTotals, type Desk } from "../counter-desk";
import { moneyIn } from "../counter-money";
import { usePane } from "../pane-context";
import { today } from "../today";
import { useCounterWords, type WordsAtCounter } from "../words/counter-words";
import { StateShape } from "./state-mark";

interface GivenProps {
  /** Latest first. */
  readonly quotes: readonly QuoteRow[];
  /** The verdict as it is now; absent where no readings are at hand to say. */
  readonly now: Verdict | undefined;
  readonly desk: Desk;
}

/** The quotes of a job: what the customer said, and whether they still stand. */
export function CounterGiven({ quotes, now, desk }: GivenProps): JSX.Element {
  const words = useCounterWords();
  const id = useId();
  const totals = useQuoteTotals(quotes);
  const terms = useMemo(() => (desk.shop.terms ? readTerms(desk.shop.terms.values) : undefined), [desk.shop.terms]);
  const validDays = terms?.ok ? terms.value.validDays : undefined;
  return (
    <section aria-labelledby={id}>
      <h4 id={id}>{words.counter.given.heading}</h4>
      {quotes.length === 0 ? <p class="cw-meta">{words.counter.given.none}</p> : null}
      <ul class="cw-plain">
        {quotes.map((quote) => (
          <GivenQuote
            key={quote.row}
            quote={quote}
            now={now}
            expired={expiredOn(quote, today(), validDays)}
            sheetTotal={totals.get(quote.quoteSheet)}
            sheetThere={totals.has(quote.quoteSheet)}
            desk={desk}
          />
        ))}
      </ul>
    </section>
  );
}

interface QuoteProps extends Omit<GivenProps, "quotes"> {
  readonly quote: QuoteRow;
  /** Day until which it was valid, once that is over. */
  readonly expired: string | undefined;
  readonly sheetTotal: number | undefined;
  readonly sheetThere: boolean;
}

function GivenQuote({ quote, now, expired, sheetTotal, sheetThere, desk }: QuoteProps): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useCounterWords();
  const { given } = words.counter;
  const [busy, setBusy] = useState(false);
  const number = quote.number || given.unnumbered;
  const decide = async (decision: Decision) => {
    setBusy(true);
    const done = await attempt(async () => {
      const { writeDecision } = await import("../start-job");
      await writeDecision(workbook, quote, decision, today());
      await desk.refresh();
      return true;
    });
    if (done) announce(given.decided(number, given.state[decision]));
    setBusy(false);
  };
  const button = (decision: "accepted" | "declined", text: string) => {
    const pressed = quote.decision === decision;
    return (
      <button
        type="button"
        aria-pressed={pressed}
        aria-label={given.of(text, number)}
        disabled={busy}
        onClick={() => void decide(pressed ? "open" : decision)}
      >
        {text}
      </button>
    );
  };
  return (
    <li class="cw-counter-given" data-quote={quote.number} data-decision={quote.decision}>
      <p class="cw-pair">
        <strong>{[number, quote.date].filter(Boolean).join(" · ")}</strong>
        <strong>{quote.total === undefined ? "" : moneyOf(quote, words)(quote.total)}</strong>
      </p>
      <p class="cw-pair">
        <span>{words.said(quote.way)}</span>
        <span>{given.on(given.state[quote.decision], quote.decision === "open" ? "" : quote.decided)}</span>
      </p>
      {expired === undefined ? null : (
        <p class="cw-counter-outdated" data-expired={expired}>
          <StateShape state="unsure" />
          <span>{given.expired(expired)}</span>
        </p>
      )}
      <StillStands quote={quote} now={now} sheetTotal={sheetTotal} />
      <p class="cw-counter-buttons">
        {button("accepted", given.accept)}
        {button("declined", given.decline)}
        {sheetThere ? (
          <button
            type="button"
            class="cw-quiet"
            aria-label={given.of(given.show, number)}
            onClick={() => void attempt(() => workbook.activateSheet(quote.quoteSheet))}
          >
            {given.show}
          </button>
        ) : null}
      </p>
    </li>
  );
}

/** A mark where the verdict, or what its sheet comes to, is no longer what was quoted. */
function StillStands({ quote, now, sheetTotal }: Pick<QuoteProps, "quote" | "now" | "sheetTotal">): JSX.Element | null {
  const words = useCounterWords();
  const { given } = words.counter;
  if (quote.decision === "declined") return null;
  if (now && quote.part !== "" && !sameVerdict(quote, now)) {
    return (
      <p class="cw-counter-outdated">
        <StateShape state="unsure" />
        <span>
          <strong>{given.outdated}:</strong>{" "}
          {given.outdatedWhy(verdictWords(quote.part, quote.state, words), verdictWords(now.part, now.state, words))}
        </span>
      </p>
    );
  }
  if (sheetTotal === undefined || quote.total === undefined || Math.abs(sheetTotal - quote.total) < 0.0005) return null;
  return <p class="cw-warning">{given.repriced(moneyOf(quote, words)(sheetTotal))}</p>;
}

function sameVerdict({ part, state }: QuoteRow, now: Verdict): boolean {
  return plain(part) === now.part && plain(state) === now.state;
}

/** Part and state by the pane's words; what the record holds of somebody's own stays as it is. */
export function verdictWords(part: string, state: string, words: WordsAtCounter): string {
  const known = words.part[plain(part) as Part | "none"] ?? part;
  return `${known}: ${words.state[plain(state) as PartState] ?? state}`;
}

function moneyOf({ currency, total }: QuoteRow, words: WordsAtCounter) {
  const decimals = /\.(\d+)/u.exec(String(total ?? ""))?.[1]?.length ?? 0;
  return moneyIn(words.language.code, currency, Math.max(2, decimals));
}
