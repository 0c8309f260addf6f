/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import { partNumberOf, partsOfNumber } from "../../workbook/known-good-sheet";
import type { CounterJob } from "../../workbook/counter-jobs";
import type { ListSheet } from "../../workbook/list-sheet";
import { assess, type AssessOptions } from "../assess";
import type { Desk } from "../counter-desk";
import type { OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import { useWords } from "../words/words";
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
  const { settings } = usePane();
  const words = useWords();
  const before = open.before.job;
  const partNumber = partNumberOf(before);
  const options = useMemo(
    (): AssessOptions => ({
      knownGood: partsOfNumber(knownGood, partNumber).map((part) => part.job),
      rule: settings.rule,
      meter: settings.meter,
    }),
    [knownGood, partNumber, settings.rule, settings.meter],
  );
  const assessment = useMemo(() => assess(before, options), [before, options]);
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
