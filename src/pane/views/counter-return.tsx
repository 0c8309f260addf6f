/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useMemo, useState } from "preact/hooks";
import { percent } from "../../core/diagnosis/diagnose";
import type { ProofOptions } from "../../core/diagnosis/proof";
import { PARTS, type Part } from "../../core/readings/types";
import { returnCheck, type JobRecord, type ReturnAnswer, type ReturnKind } from "../../workbook/return-check";
import { withoutSubject } from "../words/without-subject";
import { useCounterWords } from "../words/counter-words";
import { verdictWords } from "./counter-given";
import { asSentence, Checks } from "./counter-verdict";
import { StateShape, type AnyState } from "./state-mark";

const SHAPE: Readonly<Record<ReturnKind, AnyState>> = {
  proven: "faulty",
  excluded: "suspect",
  repaired: "serviceable",
  suspected: "suspect",
  cleared: "serviceable",
  recorded: "unproven",
  unknown: "unproven",
};

interface ReturnProps {
  readonly record: JobRecord;
  readonly options: ProofOptions;
  /** The part that is likeliest asked for. */
  readonly likely: Part | "none" | undefined;
}

/** "Was this part proven bad?", answered from what was read and quoted. */
export function CounterReturn({ record, options, likely }: ReturnProps): JSX.Element {
  const words = useCounterWords();
  const id = useId();
  const [asked, setAsked] = useState<Part | undefined>(undefined);
  const quoted = PARTS.find((part) => part === record.quotes[0]?.part);
  const part = asked ?? (likely === "none" ? undefined : likely) ?? quoted ?? "regulator-rectifier";
  const answer = useMemo(() => returnCheck(record, part, options), [record, part, options]);
  return (
    <section class="cw-counter-return" aria-labelledby={`${id}-heading`}>
      <h4 id={`${id}-heading`}>{words.counter.returned.heading}</h4>
      <p class="cw-field-row">
        <label for={`${id}-part`}>{words.counter.returned.ask}</label>
        <select
          id={`${id}-part`}
          class="cw-input"
          value={part}
          onChange={(event) => setAsked(event.currentTarget.value as Part)}
        >
          {PARTS.map((name) => (
            <option key={name} value={name}>
              {words.part[name]}
            </option>
          ))}
        </select>
      </p>
      <div role="status" aria-live="polite" data-answer={answer.kind}>
        <p class="cw-counter-answer">
          <StateShape state={SHAPE[answer.kind]} size={20} />
          <strong>{words.counter.returned.answer[answer.kind]}</strong>
        </p>
        <Grounds answer={answer} />
      </div>
    </section>
  );
}

function Grounds({ answer }: { readonly answer: ReturnAnswer }): JSX.Element {
  const words = useCounterWords();
  const { returned, verdict, given } = words.counter;
  const { grounds, checks, open, after, quotes, chance } = answer;
  return (
    <>
      {grounds === undefined ? null : (
        <p>
          {returned.grounds}: {asSentence(words.said(grounds)).replace(/^./u, (first) => first.toLowerCase())}
        </p>
      )}
      {grounds === undefined && checks.length > 0 ? <p>{returned.clearedBy}:</p> : null}
      <Checks checks={checks} />
      {open.length > 0 ? (
        <p>
          {returned.open}: {open.map((check) => words.said(check)).join(", ")}.
        </p>
      ) : null}
      {after ? (
        <p>
          {returned.after}: {words.said(withoutSubject(after.sentence))}
        </p>
      ) : null}
      {chance === undefined ? null : <p class="cw-meta">{verdict.chance(words.said(percent(chance)))}</p>}
      {quotes.length > 0 ? (
        <ul class="cw-plain">
          {quotes.map((quote) => (
            <li key={quote.row}>
              {returned.quotes} {[quote.number, quote.date].filter(Boolean).join(", ")}:{" "}
              {verdictWords(quote.part, quote.state, words)},{" "}
              {given.on(given.state[quote.decision], quote.decision === "open" ? "" : quote.decided)}.
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}
