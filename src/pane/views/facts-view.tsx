/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useRef } from "preact/hooks";
import { CATALOGUE } from "../../core/readings/catalogue";
import { cellOf, type OpenJob } from "../open-job";
import { useWords } from "../words/words";
import { BackButton } from "./back-button";
import { ReadingField } from "./reading-field";
import { useFocusMove } from "./use-focus-move";

/** Intake, machine data and what else no check takes, as far as the sheet has cells for them. */
export function FactsView({
  open,
  onBack,
  onWritten,
}: {
  readonly open: OpenJob;
  readonly onBack: () => void;
  readonly onWritten: () => Promise<void>;
}): JSX.Element {
  const words = useWords();
  const heading = useRef<HTMLHeadingElement>(null);
  const list = useRef<HTMLElement>(null);
  useFocusMove(() => heading.current?.focus(), []);
  const focusAfter = (id: string) => {
    const fields = [...(list.current?.querySelectorAll<HTMLElement>("[data-entry]") ?? [])];
    fields[fields.findIndex((field) => field.dataset["entry"] === id) + 1]?.focus();
  };
  return (
    <article class="cw-check" ref={list}>
      <BackButton onBack={onBack} />
      <h2 tabIndex={-1} ref={heading}>
        {words.checks.machineData}
      </h2>
      <p class="cw-meta">{words.checks.machineDataHint}</p>
      {(["intake", "machine", "loads"] as const).map((stage) => (
        <section key={stage} aria-label={words.stage[stage]}>
          <h3>{words.stage[stage]}</h3>
          {CATALOGUE.filter((entry) => entry.stage === stage && !entry.check && cellOf(open, "before", entry.id)).map(
            (entry) => (
              <ReadingField
                key={entry.id}
                entry={entry}
                open={open}
                visit="before"
                onWritten={onWritten}
                moveOn={() => focusAfter(entry.id)}
              />
            ),
          )}
        </section>
      ))}
    </article>
  );
}
