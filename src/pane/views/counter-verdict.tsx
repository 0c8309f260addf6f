/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useMemo } from "preact/hooks";
import { percent } from "../../core/diagnosis/diagnose";
import { readingWords } from "../../core/diagnosis/check-words";
import { checkLabel } from "../../core/diagnosis/evidence";
import type { CheckRead } from "../../core/diagnosis/proven-by";
import { returnCheck, type JobRecord } from "../../workbook/return-check";
import type { ProofOptions } from "../../core/diagnosis/proof";
import type { Assessment } from "../assess";
import { withoutSubject } from "../words/without-subject";
import { useCounterWords } from "../words/counter-words";
import { CheckSaid } from "./check-said";
import { VerdictName } from "./verdict-name";
import { sentenceCase } from "../../core/sentence-case";

/** Checks that speak for a part which is not proven: the strongest few. */
const MOST_SPEAKING = 3;

interface VerdictProps {
  readonly record: JobRecord;
  readonly assessment: Assessment;
  readonly options: ProofOptions;
}

/** The verdict with its chance, and the readings that it stands on. */
export function CounterVerdict({ record, assessment, options }: VerdictProps): JSX.Element {
  const words = useCounterWords();
  const id = useId();
  const { diagnosis, evidence } = assessment.explained!;
  const { part, state, chance, sentence } = diagnosis.verdict;
  const answer = useMemo(
    () => (part === "none" ? undefined : returnCheck(record, part, options)),
    [record, part, options],
  );
  const speaks: readonly CheckRead[] = (evidence[0]?.for ?? [])
    .slice(0, MOST_SPEAKING)
    .map(({ check }) => ({ check, label: checkLabel(check), words: readingWords(record.before, check) }));
  const proven = answer?.grounds !== undefined;
  return (
    <section class="cw-counter-verdict" aria-labelledby={id} data-state={state} data-part={part}>
      <h4 id={id} class="cw-hidden">
        {words.counter.verdict.heading}
      </h4>
      <p class="cw-headline">
        <VerdictName part={part} state={state} />
        <span class="cw-counter-chance">{words.counter.verdict.chance(words.said(percent(chance)))}</span>
      </p>
      {part === "none" ? <p>{words.said(withoutSubject(sentence))}</p> : null}
      {proven ? (
        <>
          <h5>{answer.kind === "excluded" ? words.counter.verdict.exclusion : words.counter.verdict.proof}</h5>
          <p>{asSentence(words.said(answer.grounds!))}</p>
          <Checks checks={answer.checks} />
        </>
      ) : answer ? (
        <>
          {speaks.length > 0 ? <h5>{words.counter.verdict.speaks}</h5> : null}
          <Checks checks={speaks} />
          {answer.open.length > 0 ? (
            <p>
              {words.counter.verdict.lacking}: {answer.open.map((check) => words.said(check)).join(", ")}.
            </p>
          ) : null}
        </>
      ) : null}
    </section>
  );
}

/** Checks with what was read in them. */
export function Checks({ checks }: { readonly checks: readonly CheckRead[] }): JSX.Element | null {
  const words = useCounterWords();
  if (checks.length === 0) return null;
  return (
    <ul class="cw-plain cw-counter-checks">
      {checks.map((read) => (
        <li key={read.check}>
          <CheckSaid label={words.said(read.label)} read={words.said(read.words)} />
        </li>
      ))}
    </ul>
  );
}

export function asSentence(words: string): string {
  return `${sentenceCase(words)}.`;
}
