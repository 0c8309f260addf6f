/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useRef } from "preact/hooks";
import type { JobSummary } from "../../workbook/job-sheet";
import { dayOf } from "../../workbook/visits-sheet";
import { useWords } from "../words/words";
import { useFocusMove } from "./use-focus-move";

interface JobBarProps {
  readonly sheets: readonly JobSummary[] | undefined;
  readonly sheet: string | undefined;
  /** What the job is about, from its intake cells. */
  readonly about: string;
  readonly starting: boolean;
  /** True while a job that was chosen here is coming up: the picker then gets the focus. */
  readonly changing: { current: boolean };
  /** The chosen job is there. */
  readonly settled: boolean;
  readonly onPick: (sheet: string) => void;
  readonly onStart: () => void;
  readonly onShow: () => void;
}

/** Which job is on the bench: pick a sheet, start another one. */
export function JobBar(props: JobBarProps): JSX.Element {
  const { sheets, sheet, about, starting, changing, settled, onPick, onStart, onShow } = props;
  const words = useWords();
  const id = useId();
  const picker = useRef<HTMLSelectElement>(null);
  useFocusMove(() => {
    if (!changing.current || !picker.current) return;
    picker.current.focus();
    // It is drawn once more when the job has been read.
    if (settled) changing.current = false;
  }, [sheet, settled]);
  if (sheets === undefined) return <p class="cw-meta">{words.jobs.looking}</p>;
  if (sheets.length === 0) {
    return (
      <div class="cw-empty">
        <p>{words.jobs.none}</p>
        <button type="button" class="cw-primary" disabled={starting} onClick={onStart}>
          {starting ? words.jobs.starting : words.jobs.start}
        </button>
      </div>
    );
  }
  return (
    <div class="cw-job-bar">
      <label for={id}>{words.jobs.label}</label>
      <button type="button" class="cw-quiet" onClick={onShow}>
        {words.jobs.show}
      </button>
      <button type="button" class="cw-quiet" disabled={starting} onClick={onStart}>
        {starting ? words.jobs.starting : words.jobs.startAnother}
      </button>
      <select id={id} ref={picker} value={sheet ?? ""} onChange={(event) => onPick(event.currentTarget.value)}>
        {sheets.map((job) => (
          <option key={job.sheet} value={job.sheet}>
            {[job.sheet, job.machine, dayOf(job.date)].filter(Boolean).join(" · ")}
          </option>
        ))}
      </select>
      {about ? <p class="cw-about">{about}</p> : null}
    </div>
  );
}
