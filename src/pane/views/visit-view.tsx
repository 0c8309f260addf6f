/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Cell } from "../../core/cell";
import { entryOf, isReading, numberIn } from "../../core/readings/catalogue";
import type { Entry, Job } from "../../core/readings/types";
import { addRowStep, findList, type ListRow } from "../../workbook/list-sheet";
import type { Step } from "../../workbook/port";
import { visitAgain, visitCells } from "../../workbook/visits-close";
import { dayOf, isVisitList, sameVisit, visitsOf } from "../../workbook/visits-sheet";
import { areaOf, shownCell, shownUnit, type OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import type { ListWatch } from "../use-list";
import { today } from "../today";
import { useReopen } from "../use-reopen";
import { useWords } from "../words/words";

interface VisitProps {
  readonly open: OpenJob;
  readonly visits: ListWatch;
  /** A visit was opened again on this sheet. */
  readonly onReopened: (sheet: string) => Promise<void>;
}

/** Earlier visits of the same machine beside this one, and the way to write this one down among them. */
export function Visits({ open, visits, onReopened }: VisitProps): JSX.Element | null {
  const words = useWords();
  const machine = textOf(open, "machine-name");
  if (!visits.looked) return null;
  if (!visits.list) return <NoVisits visits={visits} />;
  const day = dayOf(open.before.typed.get("visit-date"));
  const earlier = visitsOf(visits.list, machine).filter((visit) =>
    isEarlier(dayOf(visit.typed.get("visit-date")), day),
  );
  return (
    <section class="cw-visits" aria-label={words.visits.heading}>
      <h2>{words.visits.heading}</h2>
      {earlier[0] ? (
        <>
          <LastVisit open={open} last={earlier[0]} count={earlier.length} />
          <EarlierVisits earlier={earlier} onReopened={onReopened} />
        </>
      ) : (
        <p class="cw-meta">{machine ? words.visits.first(machine) : words.visits.noName}</p>
      )}
      <CloseJob open={open} visits={visits} machine={machine} />
    </section>
  );
}

/** A visit of another day; of two plain days the one before. */
function isEarlier(visit: string, day: string): boolean {
  return PLAIN_DAY.test(visit) && PLAIN_DAY.test(day) ? visit < day : day === "" || visit !== day;
}

const PLAIN_DAY = /^\d{4}-\d\d-\d\d$/u;

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
  const { temperatures } = usePane().settings;
  const words = useWords();
  const both = [...last.typed.keys()].map(entryOf).filter((entry) => entry !== undefined && isReading(entry));
  const shown = (cell: Cell, entry: Entry) => shownCell(cell, entry, temperatures).replace(/^-/u, "−");
  return (
    <details>
      <summary>{words.visits.last(dayOf(last.typed.get("visit-date")), count)}</summary>
      <table class="cw-grid-table cw-compare">
        <thead>
          <tr>
            <th scope="col">{words.knownGood.reading}</th>
            <th scope="col">{words.visits.then}</th>
            <th scope="col">{words.visits.now}</th>
            <th scope="col">{words.visits.change}</th>
          </tr>
        </thead>
        <tbody>
          {both.map((entry) => (
            <tr key={entry!.id}>
              <th scope="row">
                {words.said(entry!.label)} {unitWords(words.said(shownUnit(entry!, temperatures)))}
              </th>
              <td>{shown(last.typed.get(entry!.id), entry!)}</td>
              <td>{shown(open.before.typed.get(entry!.id), entry!) || "–"}</td>
              <td>{changeOf(entry!, last.job, open.before.job, temperatures)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** In brackets, as sheets have it in their headers. */
function unitWords(unit: string): string {
  return unit === "" ? "" : `[${unit}]`;
}

/** How much a reading differs from the last one, in the unit that both are shown in. */
function changeOf(entry: Entry, then: Job, now: Job, temperatures: "°C" | "°F"): string {
  const [before, after] = [numberIn(then, entry.id), numberIn(now, entry.id)];
  if (entry.kind !== "quantity" || before === undefined || after === undefined) return "";
  const scale = temperatures === "°F" && entry.unit === "°C" ? 1.8 : 1;
  const change = ((after - before) * scale).toFixed(entry.decimals);
  return Number(change) === 0 ? "0" : Number(change) > 0 ? `+${change}` : change.replace("-", "−");
}

/** Every earlier visit, each to be opened again. */
function EarlierVisits({
  earlier,
  onReopened,
}: {
  readonly earlier: readonly ListRow[];
  readonly onReopened: (sheet: string) => Promise<void>;
}): JSX.Element {
  const words = useWords();
  const { busy, reopen } = useReopen(onReopened);
  return (
    <details>
      <summary>{words.visits.all(earlier.length)}</summary>
      <ul class="cw-list">
        {earlier.map((visit) => (
          <li key={visit.row}>
            <button type="button" class="cw-row" disabled={busy} onClick={() => void reopen(visit)}>
              {words.visits.reopen(dayOf(visit.typed.get("visit-date")) || words.visits.undated)}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The way to a list of visits where the workbook has none. */
function NoVisits({ visits }: { readonly visits: ListWatch }): JSX.Element {
  const { workbook, attempt } = usePane();
  const words = useWords();
  const layOut = async () => {
    await attempt(async () => (await import("../start-job")).startVisits(workbook, words));
    await visits.refresh();
  };
  return (
    <section class="cw-visits" aria-label={words.visits.heading}>
      <h2>{words.visits.heading}</h2>
      <p class="cw-meta">{words.visits.noList}</p>
      <button type="button" onClick={() => void layOut()}>
        {words.visits.makeList}
      </button>
    </section>
  );
}

/** Writes this job's readings as one more row; a visit that stands there already gets what it lacks. */
function CloseJob({
  open,
  visits,
  machine,
}: Omit<VisitProps, "onReopened"> & { readonly machine: string }): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const [said, setSaid] = useState<string | undefined>(undefined);
  const close = async () => {
    // Rows may have moved, and the sheet may be called otherwise by now.
    const list = await attempt(() => findList(workbook, isVisitList));
    if (!list) return;
    // Where the sheet gives no day, it is this one.
    const day = dayOf(open.before.typed.get("visit-date")) || today();
    const { cells, left } = visitCells(list, open.before.job, open.before.typed, day);
    const there = sameVisit(list, machine, day);
    const again = there && visitAgain(there, open.before.job, cells);
    const row = there?.row ?? list.freeRow;
    const otherwise = again?.otherwise.map((id) => words.said(entryOf(id)!.label)) ?? [];
    const more = otherwise.length > 0 ? ` ${words.visits.otherwise(otherwise.join(", "))}` : "";
    if (again?.lacking.size === 0) {
      setSaid(words.visits.already(row + 1) + more);
      return;
    }
    const dateCell = open.place.cells.get("visit-date");
    // A job without a date gets the day it is closed on, so that it is found again as this visit.
    const dated: Step[] =
      dateCell && !open.before.typed.has("visit-date")
        ? [{ do: "write", at: areaOf(open.sheet, dateCell), values: [[day]] }]
        : [];
    const done = await attempt(async () => {
      await workbook.apply([addRowStep(list, again?.lacking ?? cells, row), ...dated]);
      return true;
    });
    if (!done) return;
    const where = words.visits.closed(list.sheet, row + 1) + more;
    const text = left === 0 ? where : `${where} ${words.visits.left(left)}`;
    setSaid(text);
    announce(text);
    await visits.refresh();
  };
  return (
    <>
      <button type="button" class="cw-close-job" disabled={machine === ""} onClick={() => void close()}>
        {words.visits.close}
      </button>
      {said === undefined ? null : <p>{said}</p>}
    </>
  );
}

function textOf(open: OpenJob, id: string): string {
  return String(open.before.typed.get(id) ?? "").trim();
}
