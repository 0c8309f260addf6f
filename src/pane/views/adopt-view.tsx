/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useRef, useState } from "preact/hooks";
import { faultMessage } from "../../core/result";
import type { Meaning } from "../../workbook/adopt-headers";
import { areaName, columnName } from "../../workbook/address";
import type { Area, Step } from "../../workbook/port";
import type { SheetLanguage } from "../../workbook/sheet-language";
import type { AdoptableTable, Meanings, ResultPlan } from "../adopt";
import { usePane } from "../pane-context";
import { useWords } from "../words/words";
import { AdoptColumns } from "./adopt-columns";
import { useFocusMove } from "./use-focus-move";

type Adopting = typeof import("../adopt");

interface Looked {
  readonly work: Adopting;
  /** What the results are said in. */
  readonly language: SheetLanguage;
  /** What the user pointed at, to look at the same table again. */
  readonly at: Area;
  readonly table: AdoptableTable;
  readonly meanings: Meanings;
  /** Share of machines that are in order before anything is read, where the visits are routine [1]. */
  readonly beforehand?: number | undefined;
}

/** Of ten machines on a routine visit nine are in order, where nobody said otherwise. */
const USUAL_SHARE = 0.9;

/** A table of the user's own: what its columns hold, where results go, and their writing. */
export function AdoptView(): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const id = useId();
  const [looked, setLooked] = useState<Looked | undefined>(undefined);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<string | undefined>(undefined);
  const [place, setPlace] = useState("");
  const [said, setSaid] = useState<string | undefined>(undefined);
  const found = useRef<HTMLHeadingElement>(null);
  const seen = looked?.table;
  useFocusMove(() => {
    if (seen) found.current?.focus();
  }, [seen?.sheet, seen?.headerRow]);

  const look = async (at: Area, before?: Looked): Promise<Looked | undefined> => {
    const work = await import("../adopt");
    const language = await work.languageOf(words);
    const result = await work.lookAtTable(workbook, at);
    setRefused(result.ok ? undefined : words.said(faultMessage(result.fault)));
    if (!result.ok) return void setLooked(undefined);
    const table = result.value;
    const { meanings, beforehand } = before ?? {
      meanings: work.foundMeanings(table),
      beforehand: work.routineShare(table.standing?.beside.settings ?? ""),
    };
    const now = { work, language, at, table, meanings, beforehand };
    setLooked(now);
    return now;
  };
  const whileBusy = async (doing: () => Promise<void>) => {
    setBusy(true);
    setSaid(undefined);
    await attempt(doing);
    setBusy(false);
  };
  const lookAtSelection = () => {
    setPlace("");
    return whileBusy(async () => void (await look(await workbook.selection())));
  };
  /** The sheet may have changed since it was looked at: nothing is written over that was not there then. */
  const write = (plan: (now: Looked) => Written | undefined) =>
    whileBusy(async () => {
      const now = looked && (await look(looked.at, looked));
      if (!now) return;
      const same = headersOf(now) === headersOf(looked);
      const written = same ? plan(now) : undefined;
      if (!written) {
        if (!same) await look(looked.at);
        return setSaid(words.adopt.changed);
      }
      await workbook.apply(written.steps);
      setPlace("");
      await look(looked.at, looked);
      setSaid(written.said);
      announce(written.said);
    });

  return (
    <section class="cw-adopt" aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`}>{words.adopt.heading}</h2>
      <p class="cw-meta">{words.adopt.about}</p>
      <button type="button" class={looked ? "" : "cw-primary"} disabled={busy} onClick={() => void lookAtSelection()}>
        {busy ? words.adopt.looking : words.adopt.look}
      </button>
      {refused === undefined ? null : (
        <p class="cw-error" role="alert">
          {refused}
        </p>
      )}
      {looked ? (
        <>
          <h3 tabIndex={-1} ref={found}>
            {areaName(tableArea(looked.table))} · {words.adopt.rows(looked.work.machineRows(looked.table))}
          </h3>
          {looked.table.apart.length > 0 ? (
            <p class="cw-meta">{words.adopt.apart(looked.table.apart.map(columnName).join(", "))}</p>
          ) : null}
          <AdoptColumns
            table={looked.table}
            meanings={looked.meanings}
            sample={(column, meaning) => looked.work.sampleOf(looked.table, column, meaning)}
            onChange={(column, meaning) =>
              setLooked({ ...looked, meanings: changed(looked.meanings, column, meaning) })
            }
          />
          <p class="cw-choice">
            <label>
              <input
                type="checkbox"
                checked={looked.beforehand !== undefined}
                onChange={(event) =>
                  setLooked({
                    ...looked,
                    beforehand: event.currentTarget.checked
                      ? (looked.work.routineShare(looked.table.standing?.beside.settings ?? "") ?? USUAL_SHARE)
                      : undefined,
                  })
                }
              />{" "}
              {words.adopt.routine(looked.beforehand ?? USUAL_SHARE)}
            </label>
          </p>
          <Results looked={looked} place={place} busy={busy} onPlace={setPlace} onWrite={write} />
        </>
      ) : null}
      {said === undefined ? null : (
        <p class="cw-done">
          {said} {looked?.table.standing && workbook.host.undo ? words.adopt.undo : null}{" "}
          {looked?.table.standing ? words.adopt.renewHint : null}
        </p>
      )}
    </section>
  );
}

interface Written {
  readonly steps: readonly Step[];
  /** What is said of it afterwards. */
  readonly said: string;
}

interface ResultsProps {
  readonly looked: Looked;
  readonly place: string;
  readonly busy: boolean;
  readonly onPlace: (column: string) => void;
  readonly onWrite: (plan: (now: Looked) => Written | undefined) => Promise<void>;
}

/** Where the results will stand, or what is in the way, and the buttons that write them. */
function Results({ looked, place, busy, onPlace, onWrite }: ResultsProps): JSX.Element {
  const words = useWords();
  const id = useId();
  const { work, table } = looked;
  const plan = planned(looked, place);
  const wrong = typeof plan === "string" ? plan : undefined;
  const standing = table.standing !== undefined;
  const put = (now: Looked): Written | undefined => {
    const fresh = planned(now, place);
    return typeof fresh === "string" ? undefined : { steps: fresh.steps, said: words.adopt.added(areaName(fresh.at)) };
  };
  const takeAway = (now: Looked): Written | undefined =>
    now.table.standing && {
      steps: work.planRemoval(now.table),
      said: words.adopt.removed(work.typedOver(now.table).map(areaName).join(", ")),
    };
  return (
    <div class="cw-adopt-results">
      <p class="cw-field-row">
        <label for={`${id}-place`}>{words.adopt.place}</label>
        <input
          id={`${id}-place`}
          class="cw-input"
          value={place}
          size={4}
          autocomplete="off"
          aria-describedby={`${id}-hint`}
          aria-invalid={wrong !== undefined}
          onInput={(event) => onPlace(event.currentTarget.value)}
        />
      </p>
      <p class="cw-meta" id={`${id}-hint`}>
        {words.adopt.placeHint}
      </p>
      {typeof plan === "string" ? (
        <p class="cw-error" role="alert">
          {words.said(plan)}
        </p>
      ) : (
        <p>
          {words.adopt.will(areaName(plan.at))} {plan.kind === "spilled" ? words.adopt.spilled : words.adopt.byRow}
        </p>
      )}
      <p class="cw-buttons">
        <button
          type="button"
          class="cw-primary"
          disabled={busy || typeof plan === "string"}
          onClick={() => void onWrite(put)}
        >
          {standing ? words.adopt.renew : words.adopt.add}
        </button>
        {standing ? (
          <button type="button" disabled={busy} onClick={() => void onWrite(takeAway)}>
            {words.adopt.remove}
          </button>
        ) : null}
      </p>
    </div>
  );
}

/** The plan, or the sentence that says why there is none. */
function planned({ work, language, table, meanings, beforehand }: Looked, place: string): ResultPlan | string {
  try {
    return work.planResults(table, meanings, place, language, beforehand);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

const headersOf = ({ table }: Looked) =>
  JSON.stringify([table.headerRow, table.columns.map(({ column, header }) => [column, header])]);

function changed(meanings: Meanings, column: number, meaning: Meaning | undefined): Meanings {
  const next = new Map(meanings);
  if (meaning) next.set(column, meaning);
  else next.delete(column);
  return next;
}

function tableArea({ sheet, headerRow, firstRow, rows, columns }: AdoptableTable): Area {
  const [first, last] = [columns[0]!.column, columns.at(-1)!.column];
  return { sheet, row: headerRow, column: first, rows: firstRow + rows - headerRow, columns: last - first + 1 };
}
