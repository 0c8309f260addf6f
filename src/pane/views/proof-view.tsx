/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import type { ProofOutcome } from "../../core/diagnosis/proof";
import type { ReadingState } from "../../core/judgement/types";
import { entryOf, isReading } from "../../core/readings/catalogue";
import type { CautionId } from "../../core/readings/cautions";
import { CHECKS } from "../../core/readings/checks";
import type { Entry, Job } from "../../core/readings/types";
import { judgeAll, previewOf, type AssessOptions } from "../assess";
import { shownCell, shownUnit, type OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import { repairOf } from "../repair";
import { useWords, type Words } from "../words/words";
import { BackButton } from "./back-button";
import { Cautions } from "./check-view";
import { ReadingField } from "./reading-field";
import { StateShape } from "./state-mark";
import { useFocusMove } from "./use-focus-move";

interface ProofProps {
  readonly open: OpenJob;
  readonly options: AssessOptions;
  readonly onBack: () => void;
  readonly onWritten: () => Promise<void>;
}

const SHAPE: Readonly<Record<ProofOutcome, ReadingState>> = {
  repaired: "pass",
  "not repaired": "fail",
  "something new": "fail",
  unproven: "unsure",
};

/** Read after any repair. */
const USUAL = ["rested-voltage", "idle-rpm", "idle-voltage", "test-rpm", "test-voltage", "battery-current"];

/** The readings taken once more after the repair, beside what they were before. */
export function ProofView({ open, options, onBack, onWritten }: ProofProps): JSX.Element {
  const { settings } = usePane();
  const words = useWords();
  const heading = useRef<HTMLHeadingElement>(null);
  const list = useRef<HTMLElement>(null);
  useFocusMove(() => heading.current?.focus(), []);
  const entries = proofEntries(open);
  const job = useMemo(() => jobAfter(open), [open]);
  const judged = useMemo(() => judgeAll(job, options), [job, options]);
  const proof = useMemo(() => repairOf(open, options), [open, options]);
  const noPlace = (proof?.lacking ?? []).flatMap((id) => (open.place.proof.has(id) ? [] : (entryOf(id)?.label ?? id)));
  // What was read before, and after any repair; the rest is folded away, and stays there while it is typed.
  const [wanted] = useState(() => new Set([...USUAL, ...open.before.typed.keys(), ...open.after.typed.keys()]));
  const [first, others] = [true, false].map((known) => entries.filter(({ id }) => wanted.has(id) === known)) as [
    Entry[],
    Entry[],
  ];
  const moveOn = (id: string) => {
    const fields = [...(list.current?.querySelectorAll<HTMLElement>("[data-entry]") ?? [])];
    fields[fields.findIndex((field) => field.dataset["entry"] === id) + 1]?.focus();
  };
  const field = (entry: Entry) => (
    <ReadingField
      key={entry.id}
      entry={entry}
      open={open}
      visit="after"
      judged={judged.get(entry.id)}
      preview={(measured) => previewOf(job, entry.id, measured, options)}
      leads={beforeWords(open, entry, settings.temperatures, words)}
      onWritten={onWritten}
      moveOn={() => moveOn(entry.id)}
    />
  );
  return (
    <article class="cw-check" data-check="proof">
      <BackButton onBack={onBack} />
      <h2 tabIndex={-1} ref={heading}>
        {words.proof.heading}
      </h2>
      <p role="status" class="cw-headline cw-proof" data-outcome={proof?.outcome ?? "not read"}>
        <StateShape state={proof ? SHAPE[proof.outcome] : "not read"} size={20} />
        <span>{proof ? words.said(proof.sentence) : words.proof.notRead}</span>
      </p>
      {noPlace.length > 0 ? (
        <p class="cw-warning">{words.proof.noPlace(noPlace.map((label) => words.said(label)).join(", "))}</p>
      ) : null}
      <Cautions ids={cautionsOf(first)} words={words} />
      <p>{words.proof.how}</p>
      {entries.length === 0 ? <p class="cw-warning">{words.proof.noCells}</p> : null}
      <section ref={list} aria-label={words.check.readings}>
        {first.map(field)}
        {others.length > 0 ? (
          <details>
            <summary>{words.proof.others}</summary>
            <Cautions ids={cautionsOf(others)} words={words} />
            {others.map(field)}
          </details>
        ) : null}
      </section>
    </article>
  );
}

function cautionsOf(entries: readonly Entry[]): readonly CautionId[] {
  const checks = new Set(entries.map(({ check }) => check));
  return [...new Set(CHECKS.filter(({ id }) => checks.has(id)).flatMap(({ cautions }) => cautions))];
}

function proofEntries(open: OpenJob): readonly Entry[] {
  return [...open.place.proof.keys()]
    .map(entryOf)
    .filter((entry): entry is Entry => entry !== undefined && isReading(entry));
}

/** Machine data as before, readings only those of after the repair. */
function jobAfter(open: OpenJob): Job {
  const facts = [...open.before.job].filter(([id]) => {
    const entry = entryOf(id);
    return entry !== undefined && !isReading(entry);
  });
  return new Map([...facts, ...open.after.job]);
}

function beforeWords(open: OpenJob, entry: Entry, temperatures: "°C" | "°F", words: Words): string | undefined {
  const shown = shownCell(open.before.typed.get(entry.id), entry, temperatures);
  // Beside a number only: what was typed as text may bring its own unit.
  const unit = Number.isNaN(Number(shown)) ? "" : words.said(shownUnit(entry, temperatures));
  return shown === "" ? undefined : `${words.proof.before}: ${shown} ${unit}`.trimEnd();
}
