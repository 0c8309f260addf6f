/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import type { Assessment, AssessOptions } from "../assess";
import type { OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import { repairOf } from "../repair";
import { ticketLines, writeTicket, type TicketLine } from "../ticket";
import { useWords } from "../words/words";
import { BackButton } from "./back-button";
import { useFocusMove } from "./use-focus-move";

interface TicketProps {
  readonly open: OpenJob;
  readonly assessment: Assessment;
  readonly options: AssessOptions;
  readonly onBack: () => void;
}

/** The customer's ticket as it will stand on its sheet. */
export function TicketView({ open, assessment, options, onBack }: TicketProps): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const heading = useRef<HTMLHeadingElement>(null);
  const [written, setWritten] = useState<string | undefined>(undefined);
  useFocusMove(() => heading.current?.focus(), []);
  const lines = useMemo(() => {
    return ticketLines(open, assessment, repairOf(open, options)?.outcome, words.ticket);
  }, [open, assessment, options, words]);
  const write = async () => {
    const sheet = await attempt(() => writeTicket(workbook, lines, words.ticket));
    if (sheet === undefined) return;
    const text = words.tickets.written(sheet);
    setWritten(text);
    announce(text);
  };
  return (
    <article class="cw-check cw-ticket">
      <BackButton onBack={onBack} />
      <h2 tabIndex={-1} ref={heading}>
        {words.tickets.heading}
      </h2>
      <p class="cw-meta">{words.tickets.about}</p>
      <div class="cw-figure">
        {lines.map((line, i) => (
          <Line key={i} line={line} />
        ))}
      </div>
      <button type="button" class="cw-primary" onClick={() => void write()}>
        {words.tickets.write}
      </button>
      {written === undefined ? null : <p>{written}</p>}
    </article>
  );
}

function Line({ line }: { readonly line: TicketLine }): JSX.Element {
  switch (line.kind) {
    case "title":
      return <h3>{line.text}</h3>;
    case "heading":
      return <h4>{line.text}</h4>;
    case "sentence":
      return <p>{line.text}</p>;
    case "pair":
      return (
        <p class="cw-pair">
          <span>{line.text}</span> <strong>{line.value}</strong>
        </p>
      );
  }
}
