/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { Judged } from "../../core/judgement/types";
import { numberWords } from "../../core/judgement/words";
import { parseChoice } from "../../core/readings/parse";
import type { Entry } from "../../core/readings/types";
import { shownUnit } from "../open-job";
import { usePane } from "../pane-context";
import { useWords, type Words } from "../words/words";
import { StateMark } from "./state-mark";
import { useField, type Field, type FieldProps } from "./use-field";

interface FieldViewProps extends FieldProps {
  readonly onFocus?: (() => void) | undefined;
  /** Where red and black go, in words. */
  readonly leads?: string | undefined;
}

/** One reading: label, field, unit, state, limit with its origin, and what was wrong with the text. */
export function ReadingField(props: FieldViewProps): JSX.Element {
  const { entry, onFocus, leads } = props;
  const { settings } = usePane();
  const words = useWords();
  const field = useField(props);
  const id = useId();
  const unit = shownUnit(entry, settings.temperatures);
  return (
    <div class="cw-field" data-reading={entry.id}>
      <label class="cw-label" for={`${id}-in`}>
        {words.said(entry.label)}
      </label>
      <div class="cw-field-row">
        <Control entry={entry} field={field} id={id} onFocus={onFocus} />
        {unit ? (
          <span class="cw-unit" id={`${id}-unit`}>
            {words.said(unit)}
          </span>
        ) : null}
        {field.judged ? <StateMark state={field.judged.state} /> : null}
      </div>
      {entry.kind === "text" ? null : (
        <button
          type="button"
          class="cw-quiet cw-take"
          title={words.field.take}
          aria-label={words.field.takeHint(words.said(entry.label))}
          onClick={() => void field.take()}
        >
          {words.field.takeShort}
        </button>
      )}
      <FieldNotes field={field} id={id} entry={entry} leads={leads} />
    </div>
  );
}

/** The input itself; Enter writes and moves on, Escape takes the text back. */
export function Control({
  entry,
  field,
  id,
  onFocus,
  label,
}: {
  readonly entry: Entry;
  readonly field: Field;
  readonly id: string;
  readonly onFocus?: (() => void) | undefined;
  readonly label?: string;
}): JSX.Element {
  const words = useWords();
  const describedBy = [field.error ? `${id}-error` : "", `${id}-notes`].filter(Boolean).join(" ");
  const common = {
    id: `${id}-in`,
    "data-entry": entry.id,
    "aria-describedby": describedBy,
    "aria-invalid": field.error !== undefined,
    ...(label ? { "aria-label": label } : {}),
    ...(onFocus ? { onFocus } : {}),
  };
  const onKeyDown = (event: KeyboardEvent & { readonly currentTarget: HTMLInputElement | HTMLSelectElement }) => {
    if (event.key === "Enter" && !event.isComposing) {
      event.preventDefault();
      void field.commit(event.currentTarget.value, true);
    } else if (event.key === "Escape" && field.error !== undefined) {
      event.stopPropagation();
      field.revert();
    }
  };
  if (entry.kind === "choice") {
    // The cell may hold the word in another language; what stands there is not written anew for that.
    const read = parseChoice(field.text, entry.label, entry.choices);
    const known = read.ok ? read.value : null;
    return (
      <select
        {...common}
        class="cw-input"
        value={field.text}
        onChange={(event) => field.input(event.currentTarget.value)}
        onBlur={(event) => void field.commit(event.currentTarget.value, false)}
        onKeyDown={onKeyDown}
      >
        <option value="">{entry.stage === "machine" ? words.said("Not known") : words.field.clear}</option>
        {known !== null || field.text === "" ? null : <option value={field.text}>{field.text}</option>}
        {entry.choices.map((choice) => (
          <option key={choice.value} value={choice.value === known ? field.text : choice.value}>
            {words.said(choice.label)}
          </option>
        ))}
      </select>
    );
  }
  return (
    <input
      {...common}
      class={entry.kind === "quantity" ? "cw-input cw-number" : "cw-input"}
      type="text"
      autocomplete="off"
      autocapitalize="off"
      spellcheck={false}
      enterkeyhint="next"
      value={field.text}
      onInput={(event) => field.input(event.currentTarget.value)}
      onBlur={(event) => void field.commit(event.currentTarget.value, false)}
      onKeyDown={onKeyDown}
    />
  );
}

function FieldNotes({
  field,
  id,
  entry,
  leads,
}: {
  readonly field: Field;
  readonly id: string;
  readonly entry: Entry;
  readonly leads?: string | undefined;
}): JSX.Element {
  const words = useWords();
  return (
    <>
      {field.error ? (
        <p class="cw-error" id={`${id}-error`} role="alert">
          {field.error}
          {field.sheetHolds === undefined ? "" : ` ${words.field.asSheet} ${field.sheetHolds}.`}
        </p>
      ) : null}
      <div class="cw-field-notes" id={`${id}-notes`}>
        {leads ? <p class="cw-leads-words">{leads}</p> : null}
        {field.judged ? <LimitWords judged={field.judged} entry={entry} words={words} /> : null}
      </div>
    </>
  );
}

/** The reading against its limit and where the limit comes from; before a reading, what to expect. */
function LimitWords({
  judged,
  entry,
  words,
}: {
  readonly judged: Judged;
  readonly entry: Entry;
  readonly words: Words;
}): JSX.Element | null {
  const quoted = judged.customary
    ? `${words.said(limitRange(judged.customary, entry))}: ${words.said(judged.customary.words)}.`
    : undefined;
  if (judged.state !== "not read") {
    return (
      <p class="cw-limit">
        {words.said(judged.reason)} {quoted}
      </p>
    );
  }
  const expected = judged.limit
    ? `${words.field.expected} ${words.said(limitRange(judged.limit, entry))} (${words.said(judged.limit.origin.words)})`
    : undefined;
  if (!expected && !quoted) return null;
  return <p class="cw-limit">{[expected, quoted].filter(Boolean).join(". ")}</p>;
}

/** `13.50–15.00 V`, `≥ 9.60 V`: short, for a meter's display as well. */
export function limitRange({ low, high }: { readonly low?: number; readonly high?: number }, entry: Entry): string {
  if (entry.kind !== "quantity") return "";
  const show = (value: number) => numberWords(value, entry);
  if (low !== undefined && high !== undefined) return `${low.toFixed(entry.decimals)}–${show(high)}`;
  if (low !== undefined) return `≥ ${show(low)}`;
  return high === undefined ? "" : `≤ ${show(high)}`;
}
