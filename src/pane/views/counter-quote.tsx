/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useMemo, useState } from "preact/hooks";
import { faultMessage } from "../../core/result";
import type { Alternative } from "../../core/quote/quote";
import type { PricedQuote } from "../../core/quote/quote-from-sheets";
import type { CounterJob } from "../../workbook/counter-jobs";
import type { Assessment } from "../assess";
import type { Desk } from "../counter-desk";
import { moneyIn } from "../counter-money";
import { pricesOf, type JobPrices, type OrderTexts } from "../counter-quote";
import type { OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import { useCounterWords } from "../words/counter-words";
import { CounterLines } from "./counter-lines";
import { CounterOrder } from "./counter-order";
import { CounterWays } from "./counter-ways";

interface QuoteProps {
  readonly job: CounterJob;
  readonly open: OpenJob;
  readonly assessment: Assessment;
  readonly desk: Desk;
}

/** What the verdict calls for, priced from the shop's own sheets, and the way to write it down. */
export function CounterQuote({ job, open, assessment, desk }: QuoteProps): JSX.Element {
  const { drafts } = usePane();
  const words = useCounterWords();
  const id = useId();
  const key = (name: string) => `counter|${open.sheet}|${name}`;
  // Kept until the job's sheet is gone: nothing typed is lost by looking elsewhere.
  const [typed, setTyped] = useState<Partial<OrderTexts>>(() => {
    const kept = (name: keyof OrderTexts) => {
      const text = drafts.get(key(name));
      return text === undefined ? {} : { [name]: text };
    };
    return { ...kept("customer"), ...kept("minutes"), ...kept("warranty") };
  });
  const type = (name: keyof OrderTexts, text: string) => {
    drafts.set(key(name), text === "" ? undefined : text);
    setTyped((before) => ({ ...before, [name]: text }));
  };
  // The customer is the one on the job's sheet, as it stands now, until another one is typed here.
  const customer = String(open.before.typed.get("customer") ?? "").trim() || job.customer;
  const texts = useMemo((): OrderTexts => ({ customer, minutes: "", warranty: "", ...typed }), [customer, typed]);
  const [way, setWay] = useState("");
  const prices = useMemo(() => pricesOf(open, assessment, desk.shop, texts), [open, assessment, desk.shop, texts]);
  const priced = prices?.priced.ok ? prices.priced.value : undefined;
  const chosen = priced?.quote.alternatives.find(({ name }) => name === way) ?? priced?.quote.alternatives[0];
  return (
    <section class="cw-counter-quote" aria-labelledby={id}>
      <h4 id={id}>{words.counter.quote.heading}</h4>
      {prices && !prices.priced.ok ? (
        <p class="cw-error" role="alert">
          {words.counter.quote.refused}. {words.said(faultMessage(prices.priced.fault))}
        </p>
      ) : null}
      {prices && priced ? (
        <Priced prices={prices} priced={priced} chosen={chosen} assessment={assessment} onChoose={setWay} />
      ) : null}
      {desk.looked && !prices ? <NoShop desk={desk} /> : null}
      {priced && chosen ? (
        <CounterOrder
          job={job}
          open={open}
          assessment={assessment}
          priced={priced}
          chosen={chosen}
          texts={texts}
          desk={desk}
          onType={type}
        />
      ) : null}
    </section>
  );
}

interface PricedProps {
  readonly prices: JobPrices;
  readonly priced: PricedQuote;
  readonly chosen: Alternative | undefined;
  readonly assessment: Assessment;
  readonly onChoose: (way: string) => void;
}

function Priced({ prices, priced, chosen, assessment, onChoose }: PricedProps): JSX.Element {
  const words = useCounterWords();
  const { quote, terms } = priced;
  const say = moneyIn(words.language.code, terms.money.currency, terms.money.decimals);
  const { part } = assessment.explained!.diagnosis.verdict;
  const names = prices.alsoSuspect.map((other) => words.part[other]).join(", ");
  return (
    <>
      {quote.kind === "further check" ? <p>{words.counter.quote.suspectWhy(words.part[part])}</p> : null}
      {quote.kind === "none" ? <p>{words.counter.quote.nothingWrong}</p> : null}
      <CounterWays ways={quote.alternatives} chosen={chosen} say={say} onChoose={onChoose} />
      {chosen ? <CounterLines way={chosen} terms={terms} say={say} /> : null}
      {names === "" ? null : (
        <p class="cw-warning">
          {prices.check
            ? words.counter.quote.alsoSuspect(names, say(prices.check))
            : words.counter.quote.alsoSuspectFree(names)}
        </p>
      )}
      {quote.issues.length > 0 ? (
        <details>
          <summary>
            {words.counter.quote.issues} ({quote.issues.length})
          </summary>
          <ul>
            {quote.issues.map((issue) => (
              <li key={issue}>{words.said(issue)}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </>
  );
}

/** The way to prices and terms where the workbook has none. */
function NoShop({ desk }: { readonly desk: Desk }): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useCounterWords();
  const { quote } = words.counter;
  const missing = { prices: !desk.shop.prices, terms: !desk.shop.terms };
  const lacking = [missing.prices ? quote.prices : "", missing.terms ? quote.terms : ""].filter(Boolean);
  const layOut = async () => {
    const sheets = await attempt(async () => (await import("../start-job")).layOutShop(workbook, missing, words));
    if (sheets) announce(quote.laidOut(sheets.join(", ")));
    await desk.refresh();
  };
  return (
    <>
      <p class="cw-warning">{quote.noShop(lacking.join(quote.and))}</p>
      <button type="button" onClick={() => void layOut()}>
        {quote.layOut}
      </button>
    </>
  );
}
