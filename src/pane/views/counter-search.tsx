/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { matchingJobs, type CounterJob } from "../../workbook/counter-jobs";
import { useCounterWords, type WordsAtCounter } from "../words/counter-words";

/** More jobs than these are counted, not listed. */
const MOST = 8;

interface SearchProps {
  readonly jobs: readonly CounterJob[];
  readonly chosen: CounterJob | undefined;
  readonly onChoose: (job: CounterJob) => void;
}

/** Finds a job by any of its words; the list stands there while something is typed or nothing is chosen. */
export function CounterSearch({ jobs, chosen, onChoose }: SearchProps): JSX.Element {
  const words = useCounterWords();
  const id = useId();
  const [typed, setTyped] = useState("");
  const found = matchingJobs(jobs, typed);
  const listed = typed.trim() !== "" || !chosen;
  const choose = (job: CounterJob) => {
    setTyped("");
    onChoose(job);
  };
  if (jobs.length === 0) return <p>{words.counter.noJobs}</p>;
  return (
    <form
      role="search"
      class="cw-counter-search"
      onSubmit={(event) => {
        event.preventDefault();
        if (listed && found[0]) choose(found[0]);
      }}
    >
      <label for={id}>{words.counter.find}</label>
      <input
        id={id}
        class="cw-input"
        type="search"
        value={typed}
        autocomplete="off"
        placeholder={words.counter.findHint}
        aria-describedby={`${id}-count`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Escape") setTyped("");
        }}
      />
      <p class={listed ? "cw-meta" : "cw-hidden"} id={`${id}-count`} role="status">
        {found.length === 0 ? words.counter.none : words.counter.found(found.length)}
      </p>
      {listed ? (
        <ul class="cw-list">
          {found.slice(0, MOST).map((job) => (
            <li key={job.key}>
              <button type="button" class="cw-row" data-job={job.key} onClick={() => choose(job)}>
                <span class="cw-row-name">
                  {jobTitle(job, words)} <small>{[job.customer, job.complaint].filter(Boolean).join(" · ")}</small>
                </span>
                <span class="cw-row-end">
                  <small>{words.counter.place[placeOf(job)]}</small>
                  {job.date}
                </span>
              </button>
            </li>
          ))}
        </ul>
      ) : null}
      {listed && found.length > MOST ? <p class="cw-meta">{words.counter.more(found.length - MOST)}</p> : null}
    </form>
  );
}

export function jobTitle({ jobNumber, machine, sheet }: CounterJob, words: WordsAtCounter): string {
  return [jobNumber, machine].filter(Boolean).join(" · ") || (sheet ?? words.counter.unnamed);
}

function placeOf({ sheet, visit }: CounterJob): keyof WordsAtCounter["counter"]["place"] {
  if (sheet !== undefined) return "sheet";
  return visit ? "visit" : "quoted";
}
