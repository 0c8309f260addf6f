/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { JobSummary } from "../../workbook/job-sheet";
import { dayOf } from "../../workbook/visits-sheet";
import { useWords } from "../words/words";

interface JobBarProps {
  readonly sheets: readonly JobSummary[] | undefined;
  readonly sheet: string | undefined;
  /** What the job is about, from its intake cells. */
  readonly about: string;
  readonly starting: boolean;
  readonly onPick: (sheet: string) => void;
  readonly onStart: () => void;
  readonly onShow: () => void;
}

/** Which job is on the bench: pick a sheet, start another one. */
export function JobBar({ sheets, sheet, about, starting, onPick, onStart, onShow }: JobBarProps): JSX.Element {
  const words = useWords();
  const id = useId();
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
      <select id={id} value={sheet ?? ""} onChange={(event) => onPick(event.currentTarget.value)}>
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
