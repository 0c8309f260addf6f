/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import type { Judged, Limit } from "../../core/judgement/types";
import { CAUTIONS } from "../../core/readings/cautions";
import { stepsOf } from "../../core/readings/check-steps";
import type { Entry, Job, Measured } from "../../core/readings/types";
import { CheckChart } from "../charts/check-charts";
import { KeyOffClampDrawing } from "../drawings/battery-drawings";
import { drawnReading, PLACEMENTS, type Placement } from "../drawings/placements";
import { ReadingDrawing } from "../drawings/reading-drawing";
import { cellOf, type OpenJob } from "../open-job";
import { drawnMachine, type CheckProgress } from "../working-order";
import { useWords, type Words } from "../words/words";
import { BackButton } from "./back-button";
import { DiodeGrid } from "./diode-grid";
import { limitRange, ReadingField } from "./reading-field";
import type { FieldProps } from "./use-field";
import { useFocusMove } from "./use-focus-move";

interface CheckViewProps {
  readonly open: OpenJob;
  readonly progress: CheckProgress;
  readonly judged: ReadonlyMap<string, Judged>;
  readonly preview: (id: string, measured: Measured) => Judged | undefined;
  readonly knownGood: readonly Job[];
  /** The limit of a reading that was not taken yet. */
  readonly expected: (id: string) => Limit | undefined;
  readonly previous: CheckProgress | undefined;
  readonly next: CheckProgress | undefined;
  readonly onOpen: (id: string) => void;
  readonly onBack: () => void;
  readonly onWritten: () => Promise<void>;
}

/** One check, guided: cautions first, then how, where the leads go, the readings, what they mean. */
export function CheckView(props: CheckViewProps): JSX.Element {
  const { open, progress, judged, onBack } = props;
  const { check } = progress;
  const words = useWords();
  const heading = useRef<HTMLHeadingElement>(null);
  const [focused, setFocused] = useState<string | undefined>(undefined);
  useFocusMove(() => {
    setFocused(undefined);
    heading.current?.focus({ preventScroll: true });
    heading.current?.closest(".cw-pane")?.scrollTo({ top: 0 });
  }, [check.id]);

  return (
    <article class="cw-check" data-check={check.id}>
      <BackButton onBack={onBack} />
      <h2 tabIndex={-1} ref={heading}>
        {words.said(check.label)}
      </h2>
      <p class="cw-meta cw-sentence">
        {words.engine[check.engine]} · {words.answer.minutes(check.minutes)} · {words.check.tools}:{" "}
        {check.tools.map(words.said).join(", ")}
      </p>
      <Cautions ids={check.cautions} words={words} />
      <h3>{words.check.steps}</h3>
      <ol class="cw-steps">
        {stepsOf(check.id).map((step) => (
          <li key={step}>{words.said(step)}</li>
        ))}
      </ol>
      <Figure
        checkId={check.id}
        focused={focused}
        open={open}
        judged={judged}
        expected={props.expected}
        entries={progress.entries}
      />
      <Readings {...props} onFocus={setFocused} />
      <CheckChart checkId={check.id} job={open.before.job} judged={judged} knownGood={props.knownGood} />
      <Onward {...props} />
    </article>
  );
}

export function Cautions({
  ids,
  words,
}: {
  readonly ids: CheckProgress["check"]["cautions"];
  readonly words: Words;
}): JSX.Element | null {
  if (ids.length === 0) return null;
  return (
    <section class="cw-cautions" aria-label={words.check.cautions}>
      <h3>
        <svg width="18" height="16" viewBox="0 0 18 16" aria-hidden="true">
          <path d="M9 1l8 14h-16z" />
          <path d="M9 6v4M9 12.200v.2" />
        </svg>
        {words.check.cautions}
      </h3>
      <ul>
        {ids.map((caution) => (
          <li key={caution}>{words.said(CAUTIONS[caution])}</li>
        ))}
      </ul>
    </section>
  );
}

/** The drawing of the reading in hand, its leads placed and the display showing what to expect. */
function Figure({
  checkId,
  focused,
  open,
  judged,
  expected,
  entries,
}: {
  readonly checkId: string;
  readonly focused: string | undefined;
  readonly open: OpenJob;
  readonly judged: ReadonlyMap<string, Judged>;
  readonly expected: CheckViewProps["expected"];
  readonly entries: readonly Entry[];
}): JSX.Element | null {
  const words = useWords();
  const drawn = drawnReading(
    checkId,
    focused ??
      entries.find((entry) => !open.before.job.has(entry.id) && drawnReading(checkId, entry.id) === entry.id)?.id ??
      entries[0]?.id,
  );
  const entry = entries.find((e) => e.id === drawn);
  if (drawn === undefined || !entry) return null;
  const shows = expectedDisplay(entry, judged.get(drawn)?.limit ?? expected(drawn), PLACEMENTS.get(drawn), words);
  return (
    <figure class="cw-figure" data-drawn={drawn}>
      <ReadingDrawing readingId={drawn} shows={shows} machine={drawnMachine(open.before.job)} />
      <figcaption>
        <strong>{words.said(entry.label)}.</strong> {leadWords(PLACEMENTS.get(drawn), words)}
      </figcaption>
      {drawn === "key-off-draw" ? (
        <details>
          <summary>{words.check.secondWay}</summary>
          <KeyOffClampDrawing shows={shows} />
        </details>
      ) : null}
    </figure>
  );
}

/** What a healthy part should show: the limit, or what the direction of the leads makes a device do. */
function expectedDisplay(
  entry: Entry,
  limit: Limit | undefined,
  placement: Placement | undefined,
  words: Words,
): string {
  if (limit) return words.said(limitRange(limit, entry));
  if (placement?.forward !== undefined) return placement.forward ? words.drawing.conducts : words.drawing.blocks;
  return "– – –";
}

export function leadWords(placement: Placement | undefined, words: Words): string | undefined {
  if (!placement) return undefined;
  const d = words.drawing;
  if (placement.clamp) return `${d.clampGoes[placement.clamp.round]}, ${d.clampArrow[placement.clamp.arrow]}.`;
  if (!placement.red || !placement.black) return undefined;
  if (placement.red === placement.black) return `${d.leadsTogether}.`;
  const leads = d.leadsGo(d.place[placement.red], d.place[placement.black]);
  return placement.eitherWay ? leads.replace(/\.$/u, ` (${d.eitherWay}).`) : leads;
}

function Readings({
  open,
  progress,
  judged,
  preview,
  expected,
  next,
  onWritten,
  onFocus,
}: CheckViewProps & { readonly onFocus: (id: string) => void }): JSX.Element {
  const words = useWords();
  const list = useRef<HTMLElement>(null);
  const fieldOf = (entry: Entry): FieldProps => ({
    entry,
    open,
    visit: "before",
    judged: judged.get(entry.id),
    expected: () => expected(entry.id),
    preview: (measured) => preview(entry.id, measured),
    onWritten,
    moveOn: () => focusAfter(list.current, entry.id),
  });
  const known = progress.entries.filter((entry) => cellOf(open, "before", entry.id) !== undefined);
  const missing = progress.entries.filter((entry) => !known.includes(entry));
  const grid = progress.check.id === "diode-check";
  const byId = new Map(known.map((entry) => [entry.id, entry]));
  return (
    <section ref={list} class="cw-readings" aria-label={words.check.readings} data-next={next?.check.id}>
      <h3>{words.check.readings}</h3>
      {grid ? (
        <DiodeGrid
          ids={new Set(byId.keys())}
          onFocus={onFocus}
          fieldOf={(id) => (byId.has(id) ? fieldOf(byId.get(id)!) : undefined)}
        />
      ) : (
        known.map((entry) => <ReadingField key={entry.id} {...fieldOf(entry)} onFocus={() => onFocus(entry.id)} />)
      )}
      {missing.length > 0 ? (
        <p class="cw-warning">
          {words.field.noCell} {missing.map((entry) => words.said(entry.label)).join(", ")}
        </p>
      ) : null}
    </section>
  );
}

/** Focus goes to the next field of the check; after the last one to the way onward. */
function focusAfter(list: HTMLElement | null, id: string): void {
  if (!list) return;
  const fields = [...list.querySelectorAll<HTMLElement>("[data-entry]")];
  const at = fields.findIndex((field) => field.dataset["entry"] === id);
  const following = fields[at + 1] ?? list.closest("article")?.querySelector<HTMLElement>(".cw-onward button");
  following?.focus();
  if (following instanceof HTMLInputElement) following.select();
}

/** After the last reading: the next check in working order, whose cautions come before its fields. */
function Onward({ previous, next, onOpen, onBack }: CheckViewProps): JSX.Element {
  const words = useWords();
  return (
    <div class="cw-onward">
      {next ? (
        <button type="button" class="cw-primary" onClick={() => onOpen(next.check.id)}>
          <span>
            {words.check.nextCheck}: <strong>{words.said(next.check.label)}</strong>
          </span>
        </button>
      ) : null}
      <button type="button" onClick={onBack}>
        {words.check.allChecks}
      </button>
      {previous ? (
        <button type="button" class="cw-quiet" onClick={() => onOpen(previous.check.id)}>
          {words.check.previousCheck}: {words.said(previous.check.label)}
        </button>
      ) : null}
    </div>
  );
}
