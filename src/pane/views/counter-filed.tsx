/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo } from "preact/hooks";
import type { Job } from "../../core/readings/types";
import type { CounterJob } from "../../workbook/counter-jobs";
import { partNumberOf, partsOfNumber } from "../../workbook/known-good-sheet";
import type { ListRow, ListSheet } from "../../workbook/list-sheet";
import { isMachineList, machineData } from "../../workbook/machines-sheet";
import type { Desk } from "../counter-desk";
import { usePane } from "../pane-context";
import { useList } from "../use-list";
import { useReopen } from "../use-reopen";
import { useCounterWords } from "../words/counter-words";
import { CounterGiven } from "./counter-given";
import { CounterReturn } from "./counter-return";

const NOTHING: Job = new Map();

interface FiledProps {
  readonly job: CounterJob;
  readonly desk: Desk;
  readonly knownGood: ListSheet | undefined;
  readonly onReopened: (sheet: string) => Promise<void>;
}

/** A job without a sheet of its own: what the list of visits or the record of quotes still knows of it. */
export function CounterFiled({ job, desk, knownGood, onReopened }: FiledProps): JSX.Element {
  const { workbook, sheets } = usePane();
  const words = useCounterWords();
  const machines = useList(workbook, isMachineList, sheets);
  const before = useMemo(
    (): Job => (job.visit ? new Map([...machineData(machines.list, job.machine), ...job.visit.job]) : NOTHING),
    [job, machines.list],
  );
  const record = useMemo(() => ({ before, after: NOTHING, quotes: job.quotes }), [before, job.quotes]);
  const options = useMemo(
    () => ({ knownGood: partsOfNumber(knownGood, partNumberOf(before)).map((part) => part.job) }),
    [knownGood, before],
  );
  return (
    <>
      {job.visit ? (
        <>
          <p class="cw-meta">{words.counter.returned.fromVisit}</p>
          <Reopen visit={job.visit} onReopened={onReopened} />
        </>
      ) : null}
      {job.quotes.length > 0 ? <CounterGiven quotes={job.quotes} now={undefined} desk={desk} /> : null}
      {machines.looked ? <CounterReturn record={record} options={options} likely={undefined} /> : null}
    </>
  );
}

/** A closed visit is quoted from a sheet of its own. */
function Reopen({ visit, onReopened }: { readonly visit: ListRow } & Pick<FiledProps, "onReopened">): JSX.Element {
  const words = useCounterWords();
  const { busy, reopen } = useReopen(onReopened);
  return (
    <button type="button" disabled={busy} onClick={() => void reopen(visit)}>
      {words.counter.returned.reopen}
    </button>
  );
}
