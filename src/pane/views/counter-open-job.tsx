/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { CounterJob } from "../../workbook/counter-jobs";
import type { ListSheet } from "../../workbook/list-sheet";
import { limitOptions } from "../assess";
import type { Desk } from "../counter-desk";
import type { OpenJob } from "../open-job";
import { useAssessment } from "../use-assessment";
import { useCounterWords } from "../words/counter-words";
import { CounterGiven } from "./counter-given";
import { CounterQuote } from "./counter-quote";
import { CounterReturn } from "./counter-return";
import { CounterVerdict } from "./counter-verdict";

interface OpenJobProps {
  readonly job: CounterJob;
  readonly open: OpenJob;
  readonly desk: Desk;
  readonly knownGood: ListSheet | undefined;
}

/** A job whose sheet stands in the workbook: verdict, quote, what was quoted, what comes back. */
export function CounterOpenJob({ job, open, desk, knownGood }: OpenJobProps): JSX.Element {
  const words = useCounterWords();
  const before = open.before.job;
  const { assessment, options: asked } = useAssessment(before, knownGood);
  const options = useMemo(() => limitOptions(asked), [asked]);
  const verdict = assessment.explained?.diagnosis.verdict;
  const record = useMemo(
    () => ({ before, after: open.after.job, quotes: job.quotes }),
    [before, open.after.job, job.quotes],
  );
  return (
    <>
      {verdict ? (
        <CounterVerdict record={record} assessment={assessment} options={options} />
      ) : (
        <p>{words.counter.verdict.nothing}</p>
      )}
      {verdict ? <CounterQuote key={open.sheet} job={job} open={open} assessment={assessment} desk={desk} /> : null}
      <CounterGiven quotes={job.quotes} now={verdict} desk={desk} />
      <CounterReturn record={record} options={options} likely={verdict?.part} />
    </>
  );
}
