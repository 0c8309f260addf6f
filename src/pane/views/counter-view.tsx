/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { counterJobs, type CounterJob } from "../../workbook/counter-jobs";
import type { JobSummary } from "../../workbook/job-sheet";
import type { ListSheet } from "../../workbook/list-sheet";
import { useDesk } from "../counter-desk";
import type { OpenJob } from "../open-job";
import type { ListWatch } from "../use-list";
import { useCounterWords } from "../words/counter-words";
import { CounterFiled } from "./counter-filed";
import { CounterOpenJob } from "./counter-open-job";
import { CounterSearch, jobTitle } from "./counter-search";

export interface CounterProps {
  readonly sheets: readonly JobSummary[] | undefined;
  /** The job that the pane follows. */
  readonly sheet: string | undefined;
  readonly open: OpenJob | undefined;
  readonly knownGood: ListSheet | undefined;
  readonly visits: ListWatch;
  readonly onPick: (sheet: string) => void;
  /** Looks through the workbook's sheets anew; a job was opened again on the sheet that is named. */
  readonly onLook: (sheet?: string) => Promise<void>;
}

/** The parts counter: find a job, quote what its verdict calls for, answer for a part that comes back. */
export function CounterView({ sheets, sheet, open, knownGood, visits, onPick, onLook }: CounterProps): JSX.Element {
  const words = useCounterWords();
  const id = useId();
  const desk = useDesk();
  const [chosen, setChosen] = useState(keyOf(sheet));
  const heading = useRef<HTMLHeadingElement>(null);
  const jobs = useMemo(
    () => counterJobs(sheets ?? [], visits.list, desk.record?.rows ?? []),
    [sheets, visits.list, desk.record],
  );
  const job = jobs.find(({ key }) => key === chosen);

  // What stands under intake may have been typed since the sheets were looked through.
  useEffect(() => void onLook(), []);
  useEffect(() => {
    if (sheet !== undefined) setChosen(keyOf(sheet));
  }, [sheet]);
  const choose = (next: CounterJob) => {
    setChosen(next.key);
    if (next.sheet !== undefined) onPick(next.sheet);
    // The heading is there at once, what belongs to it follows.
    requestAnimationFrame(() => heading.current?.focus());
  };
  return (
    <section class="cw-counter" aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`}>{words.counter.heading}</h2>
      {sheets === undefined || !desk.looked ? (
        <p class="cw-meta">{words.jobs.looking}</p>
      ) : (
        <CounterSearch jobs={jobs} chosen={job} onChoose={choose} />
      )}
      {job ? (
        <article key={job.key}>
          <h3 class="cw-counter-job" tabIndex={-1} ref={heading}>
            {jobTitle(job, words)}
          </h3>
          <p class="cw-meta">{aboutJob(job, job.sheet === open?.sheet ? open : undefined)}</p>
          {job.sheet === undefined ? (
            <CounterFiled job={job} desk={desk} knownGood={knownGood} onReopened={onLook} />
          ) : open && open.sheet === job.sheet ? (
            <CounterOpenJob job={job} open={open} desk={desk} knownGood={knownGood} />
          ) : (
            <p class="cw-meta">{words.counter.wait}</p>
          )}
        </article>
      ) : null}
    </section>
  );
}

/** What was typed on the sheet since the jobs were looked through stands there already. */
function aboutJob(job: CounterJob, open: OpenJob | undefined): string {
  const now = (id: string, then: string) => (open ? String(open.before.typed.get(id) ?? "").trim() : "") || then;
  const { date, customer, phone, complaint } = job;
  const about = [date, now("customer", customer), now("customer-phone", phone), now("complaint", complaint)];
  return about.filter(Boolean).join(" · ");
}

function keyOf(sheet: string | undefined): string | undefined {
  return sheet === undefined ? undefined : `sheet ${sheet}`;
}
