/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { entryOf, isReading } from "../../core/readings/catalogue";
import { addRowStep, type ListRow } from "../../workbook/list-sheet";
import { dayOf, sameVisit, visitsOf } from "../../workbook/visits-sheet";
import { shownCell, type OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import type { ListWatch } from "../use-list";
import { useWords } from "../words/words";

interface VisitProps {
  readonly open: OpenJob;
  readonly visits: ListWatch;
}

/** Earlier visits of the same machine beside this one, and the way to write this one down among them. */
export function Visits({ open, visits }: VisitProps): JSX.Element | null {
  const words = useWords();
  const machine = textOf(open, "machine-name");
  if (!visits.list) return null;
  const day = dayOf(open.before.typed.get("visit-date"));
  const earlier = visitsOf(visits.list, machine).filter(
    (visit) => day === "" || dayOf(visit.typed.get("visit-date")) !== day,
  );
  return (
    <section class="cw-visits" aria-label={words.visits.heading}>
      <h2>{words.visits.heading}</h2>
      {earlier[0] ? (
        <LastVisit open={open} last={earlier[0]} count={earlier.length} />
      ) : (
        <p class="cw-meta">{machine ? words.visits.first(machine) : words.visits.noName}</p>
      )}
      <CloseJob open={open} visits={visits} machine={machine} />
    </section>
  );
}

/** What was read the last time, reading by reading. */
function LastVisit({
  open,
  last,
  count,
}: {
  readonly open: OpenJob;
  readonly last: ListRow;
  readonly count: number;
}): JSX.Element {
  const { settings } = usePane();
  const words = useWords();
  const both = [...last.typed.keys()].map(entryOf).filter((entry) => entry !== undefined && isReading(entry));
  return (
    <details>
      <summary>{words.visits.last(dayOf(last.typed.get("visit-date")), count)}</summary>
      <table class="cw-grid-table cw-compare">
        <thead>
          <tr>
            <th scope="col">{words.knownGood.reading}</th>
            <th scope="col">{words.visits.then}</th>
            <th scope="col">{words.visits.now}</th>
          </tr>
        </thead>
        <tbody>
          {both.map((entry) => (
            <tr key={entry!.id}>
              <th scope="row">{entry!.label}</th>
              <td>{shownCell(last.typed.get(entry!.id), entry!, settings.temperatures)}</td>
              <td>{shownCell(open.before.typed.get(entry!.id), entry!, settings.temperatures) || "–"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** Writes this job's readings as one more row; a visit that stands there already is not written twice. */
function CloseJob({ open, visits, machine }: VisitProps & { readonly machine: string }): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const [said, setSaid] = useState<string | undefined>(undefined);
  const close = async () => {
    const list = visits.list;
    if (!list) return;
    const day = dayOf(open.before.typed.get("visit-date")) || today();
    const there = sameVisit(list, machine, day);
    if (there) {
      setSaid(words.visits.already(there.row + 1));
      return;
    }
    const cells = new Map<string, string | number>([["visit-date", day]]);
    for (const [id, cell] of open.before.typed) {
      if (
        list.columns.has(id) &&
        !open.before.faults.has(id) &&
        id !== "visit-date" &&
        (typeof cell === "string" || typeof cell === "number")
      )
        cells.set(id, cell);
    }
    const done = await attempt(async () => {
      await workbook.apply([addRowStep(list, cells)]);
      return true;
    });
    if (!done) return;
    const text = words.visits.closed(list.sheet, list.freeRow + 1);
    setSaid(text);
    announce(text);
    await visits.refresh();
  };
  return (
    <>
      <button type="button" disabled={machine === ""} onClick={() => void close()}>
        {words.visits.close}
      </button>
      {said === undefined ? null : <p>{said}</p>}
    </>
  );
}

/** The day of the job where its sheet gives none: the clock of the machine that the pane runs on. */
function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function textOf(open: OpenJob, id: string): string {
  return String(open.before.typed.get(id) ?? "").trim();
}
