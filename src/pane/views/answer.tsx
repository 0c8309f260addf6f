/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import { percent, type Diagnosis, type FaultChance } from "../../core/diagnosis/diagnose";
import { checkLabel, type EvidenceItem, type FaultEvidence } from "../../core/diagnosis/evidence";
import { faultOf, faultsOfKey } from "../../core/diagnosis/faults";
import type { NextCheck } from "../../core/diagnosis/next-check";
import { entryOf } from "../../core/readings/catalogue";
import { faultMessage, type Fault } from "../../core/result";
import type { Assessment } from "../assess";
import { withoutSubject } from "../words/without-subject";
import { useWords, type Words } from "../words/words";
import { CheckSaid } from "./check-said";
import { StateMark, StateShape } from "./state-mark";
import { VerdictName } from "./verdict-name";

/** Causes that are drawn at once; the rest is folded. */
const SHOWN = 3;

interface AnswerProps {
  readonly assessment: Assessment;
  /** What is wrong with cells that cannot be read. */
  readonly faults: readonly Fault[];
  readonly onOpenCheck: (id: string) => void;
}

/** The answer on top: part and state, next check, chances; evidence below, detail folded. */
export function Answer({ assessment, faults, onOpenCheck }: AnswerProps): JSX.Element {
  const words = useWords();
  const id = useId();
  const { explained } = assessment;
  return (
    <section class="cw-answer" aria-labelledby={id}>
      <h2 class="cw-eyebrow" id={id}>
        {words.answer.heading}
      </h2>
      <div role="status" aria-live="polite" aria-atomic="true">
        <Headline diagnosis={explained?.diagnosis} words={words} />
        {faults.length > 0 ? <p class="cw-warning">{words.answer.unreadable(faults.length)}</p> : null}
        <NextLine next={assessment.nextChecks[0]} words={words} />
      </div>
      {faults.length > 0 ? (
        <ul class="cw-plain cw-faults">
          {faults.map(faultMessage).map((message) => (
            <li key={message}>{words.said(message)}</li>
          ))}
        </ul>
      ) : null}
      <NextButton next={assessment.nextChecks[0]} onOpenCheck={onOpenCheck} />
      {explained ? (
        <>
          <Conflicts diagnosis={explained.diagnosis} />
          <Chances faults={explained.diagnosis.faults} />
          <Why evidence={explained.evidence} faults={explained.diagnosis.faults} />
          <Parts diagnosis={explained.diagnosis} />
        </>
      ) : null}
    </section>
  );
}

function Headline({
  diagnosis,
  words,
}: {
  readonly diagnosis: Diagnosis | undefined;
  readonly words: Words;
}): JSX.Element {
  if (!diagnosis) {
    return (
      <>
        <p class="cw-headline">{words.answer.nothingRead}</p>
        <p class="cw-sentence">{words.answer.nothingReadMore}</p>
      </>
    );
  }
  const { part, state, sentence } = diagnosis.verdict;
  return (
    <>
      <p class="cw-headline" data-part={part} data-state={state}>
        <VerdictName part={part} state={state} />
      </p>
      <p class="cw-sentence">{words.said(withoutSubject(sentence))}</p>
    </>
  );
}

/** For those who hear the answer; the button below says the same to those who see it. */
function NextLine({ next, words }: { readonly next: NextCheck | undefined; readonly words: Words }): JSX.Element {
  return <p class="cw-hidden">{next ? `${words.answer.next}: ${words.said(next.label)}` : words.answer.enough}</p>;
}

function NextButton({
  next,
  onOpenCheck,
}: {
  readonly next: NextCheck | undefined;
  readonly onOpenCheck: (id: string) => void;
}): JSX.Element {
  const words = useWords();
  if (!next) return <p class="cw-sentence">{words.answer.enough}</p>;
  return (
    <div class="cw-next">
      <button type="button" class="cw-primary" onClick={() => onOpenCheck(next.check)}>
        <span>
          {words.answer.next}: <strong>{words.said(next.label)}</strong>
        </span>
        <span class="cw-minutes">{words.answer.minutes(next.minutes)}</span>
      </button>
      {next.outcomes.length > 0 ? (
        <details>
          <summary>{words.answer.wouldMean}</summary>
          <ul class="cw-plain">
            {next.outcomes.map((outcome) => (
              <li key={outcome.words}>
                {words.said(outcome.words)} ({words.said(percent(outcome.chance))}): {words.said(outcome.means)}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}

/** Readings that contradict each other: said before anything is built on them. */
function Conflicts({ diagnosis }: { readonly diagnosis: Diagnosis }): JSX.Element | null {
  const words = useWords();
  if (diagnosis.contradictions.length === 0) return null;
  return (
    <div class="cw-conflicts">
      <h3>
        <StateShape state="unsure" /> {words.answer.conflicts}
      </h3>
      <ul class="cw-plain">
        {diagnosis.contradictions.map((conflict) => (
          <li key={conflict.words}>
            {words.said(conflict.words)}
            {conflict.setAside.length > 0 ? (
              <small>
                {" "}
                {words.answer.setAside}:{" "}
                {conflict.setAside.map((reading) => words.said(entryOf(reading)?.label ?? reading)).join(", ")}.
              </small>
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Chances({ faults }: { readonly faults: readonly FaultChance[] }): JSX.Element {
  const words = useWords();
  const rest = faults.slice(SHOWN).filter((fault) => fault.chance >= 0.005);
  return (
    <div class="cw-chances">
      <h3>{words.answer.chances}</h3>
      <ul class="cw-bars">
        {faults.slice(0, SHOWN).map((fault) => (
          <ChanceBar key={fault.fault} fault={fault} words={words} />
        ))}
      </ul>
      {rest.length > 0 ? (
        <details>
          <summary>{words.answer.more}</summary>
          <ul class="cw-bars">
            {rest.map((fault) => (
              <ChanceBar key={fault.fault} fault={fault} words={words} />
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}

function ChanceBar({ fault, words }: { readonly fault: FaultChance; readonly words: Words }): JSX.Element {
  const parts = [...new Set(faultsOfKey(fault.fault).map((id) => faultOf(id).part))].filter((part) => part !== null);
  return (
    <li>
      <span class="cw-bar-label">
        {words.said(fault.label)}
        {parts.length > 0 ? <small> {parts.map((part) => words.part[part]).join(", ")}</small> : null}
      </span>
      <span class="cw-bar-share">{words.said(percent(fault.chance))}</span>
      <svg class="cw-bar-drawn" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        <rect class="cw-bar-ground" width="100" height="6" />
        <rect class="cw-bar-filled" width={Math.max(0.5, fault.chance * 100)} height="6" />
      </svg>
    </li>
  );
}

function Why({
  evidence,
  faults,
}: {
  readonly evidence: readonly FaultEvidence[];
  readonly faults: readonly FaultChance[];
}): JSX.Element {
  const words = useWords();
  return (
    <details class="cw-why">
      <summary>{words.answer.why}</summary>
      {evidence.map((of) => {
        const fault = faults.find((f) => f.fault === of.fault);
        if (!fault || (of.for.length === 0 && of.against.length === 0)) return null;
        return (
          <div key={of.fault}>
            <h4>
              {words.said(fault.label)} ({words.said(percent(fault.chance))})
            </h4>
            <Evidence title={words.answer.for} sign="+" items={of.for} />
            <Evidence title={words.answer.against} sign="−" items={of.against} />
          </div>
        );
      })}
    </details>
  );
}

function Evidence({
  title,
  sign,
  items,
}: {
  readonly title: string;
  readonly sign: string;
  readonly items: readonly EvidenceItem[];
}): JSX.Element | null {
  const words = useWords();
  if (items.length === 0) return null;
  return (
    <dl class="cw-evidence">
      <dt>
        <span aria-hidden="true">{sign}</span> {title}
      </dt>
      {items.map((item) => (
        <dd key={item.check}>
          <CheckSaid label={words.said(checkLabel(item.check))} read={words.said(item.words)} />
        </dd>
      ))}
    </dl>
  );
}

function Parts({ diagnosis }: { readonly diagnosis: Diagnosis }): JSX.Element {
  const words = useWords();
  return (
    <div class="cw-parts">
      <h3>{words.answer.parts}</h3>
      <ul class="cw-plain">
        {diagnosis.parts.map((part) => (
          <li key={part.part} data-part={part.part}>
            <span>{words.part[part.part]}</span>
            <StateMark state={part.state} />
          </li>
        ))}
      </ul>
    </div>
  );
}
