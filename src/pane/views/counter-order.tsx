/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { plain } from "../../core/quote/price-list";
import type { Alternative } from "../../core/quote/quote";
import type { PricedQuote } from "../../core/quote/quote-from-sheets";
import type { CounterJob } from "../../workbook/counter-jobs";
import { findJobSources, type JobSources } from "../../workbook/quote-sources";
import type { Assessment } from "../assess";
import type { Desk } from "../counter-desk";
import { minutesOf, minutesTaken, orderOf, type OrderTexts } from "../counter-quote";
import type { OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import { today } from "../today";
import { useCounterWords } from "../words/counter-words";

interface OrderProps {
  readonly job: CounterJob;
  readonly open: OpenJob;
  readonly assessment: Assessment;
  readonly priced: PricedQuote;
  readonly chosen: Alternative;
  readonly texts: OrderTexts;
  readonly desk: Desk;
  readonly onType: (name: keyof OrderTexts, text: string) => void;
}

/** For whom the quote is and what goes into it, and its writing. */
export function CounterOrder({ job, open, assessment, priced, chosen, texts, desk, onType }: OrderProps): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useCounterWords();
  const { order } = words.counter;
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<{ readonly text: string; readonly wrong: boolean } | undefined>(undefined);
  const refused = Number.isNaN(minutesOf(texts.minutes));
  const taken = minutesTaken(open.before.job);
  const latest = job.quotes[0];
  const again = latest?.decision === "open" ? latest : undefined;

  const write = async () => {
    setBusy(true);
    await attempt(async () => {
      const sources = await findJobSources(workbook, open.sheet);
      const wrong = sources ? differs(sources) : order.noVerdict(open.sheet);
      const { prices, terms } = desk.shop;
      if (!sources || wrong !== undefined || !prices || !terms) {
        setSaid(wrong === undefined ? undefined : { text: wrong, wrong: true });
        return;
      }
      const { languageOf, writeQuote } = await import("../start-job");
      const ties = { ...sources, prices: prices.range, terms: terms.range };
      const written = await writeQuote(
        workbook,
        orderOf(open, assessment, priced, chosen, texts, today()),
        ties,
        await languageOf(words),
        again,
      );
      await desk.refresh();
      const text = order.written(written.number, written.sheet);
      setSaid({ text, wrong: false });
      announce(text);
    });
    setBusy(false);
  };
  /** The quote's sheet follows the job's sheet: what it would say must be what is shown here. */
  const differs = ({ verdictCells: [part, state] }: JobSources): string | undefined => {
    const verdict = assessment.explained!.diagnosis.verdict;
    const [sheet, pane] = [`${String(part ?? "")}: ${String(state ?? "")}`, `${verdict.part}: ${verdict.state}`];
    const calculated = String(part ?? "") !== "";
    return calculated && plain(sheet) !== plain(pane) ? order.differs(sheet, pane) : undefined;
  };
  return (
    <form
      class="cw-counter-order"
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy && !refused) void write();
      }}
    >
      <Field label={order.customer} value={texts.customer} onType={(text) => onType("customer", text)} />
      <Field
        label={order.minutes}
        value={texts.minutes}
        number
        wrong={refused ? order.minutesRefused(texts.minutes) : undefined}
        hint={taken > 0 && texts.minutes === "" ? order.minutesHint(taken) : undefined}
        onType={(text) => onType("minutes", text)}
      >
        {taken > 0 && texts.minutes === "" ? (
          <button type="button" class="cw-quiet" onClick={() => onType("minutes", String(taken))}>
            {order.takeMinutes(taken)}
          </button>
        ) : null}
      </Field>
      <Field
        label={order.warranty}
        value={texts.warranty}
        hint={order.warrantyHint}
        onType={(text) => onType("warranty", text)}
      />
      <button type="submit" class="cw-primary" disabled={busy || refused}>
        {again ? order.writeAnew(again.number) : order.write}
      </button>
      {said === undefined ? null : (
        <p class={said.wrong ? "cw-error" : "cw-done"} role={said.wrong ? "alert" : undefined}>
          {said.text}
        </p>
      )}
    </form>
  );
}

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly number?: boolean;
  readonly hint?: string | undefined;
  readonly wrong?: string | undefined;
  readonly onType: (text: string) => void;
  readonly children?: JSX.Element | null;
}

function Field({ label, value, number, hint, wrong, onType, children }: FieldProps): JSX.Element {
  const id = useId();
  const about = [hint === undefined ? "" : `${id}-hint`, wrong === undefined ? "" : `${id}-wrong`].filter(Boolean);
  return (
    <div class="cw-counter-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        class={number ? "cw-input cw-number" : "cw-input"}
        value={value}
        autocomplete="off"
        inputMode={number ? "decimal" : undefined}
        aria-invalid={wrong !== undefined}
        aria-describedby={about.length > 0 ? about.join(" ") : undefined}
        onInput={(event) => onType(event.currentTarget.value)}
      />
      {children}
      {hint === undefined ? null : (
        <p class="cw-meta" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {wrong === undefined ? null : (
        <p class="cw-error" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
