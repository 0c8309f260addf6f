/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { PHASES } from "../../core/readings/entries";
import { expectedOfParts, type Expected } from "../../core/rectifier/expectation";
import { isKnownGoodList, partNumberOf, partsOfNumber } from "../../workbook/known-good-sheet";
import { addRowStep, findList, type ListRow } from "../../workbook/list-sheet";
import { BLOCK_ROW, blockOf, DIODE_ROWS } from "../diode-block";
import type { OpenJob } from "../open-job";
import { usePane } from "../pane-context";
import type { ListWatch } from "../use-list";
import { useWords } from "../words/words";

const IDS = DIODE_ROWS.flatMap((row) => PHASES.map((phase) => `${row}-${phase}`));
const EXTRA = ["bridge-kind", "output-to-ground", "output-to-ground-swapped"];

interface KnownGoodProps {
  readonly watch: ListWatch;
  readonly open: OpenJob | undefined;
}

/** The shop's own readings of good parts: what they say of a number, and how another one is added. */
export function KnownGoodView({ watch, open }: KnownGoodProps): JSX.Element {
  const { workbook, attempt } = usePane();
  const words = useWords();
  const id = useId();
  const { list } = watch;
  const own = open ? partNumberOf(open.before.job) : "";
  const numbers = [
    ...new Set([
      ...(own ? [own] : []),
      ...(list?.rows ?? []).map((part) => partNumberOf(part.job)).filter((name) => name !== ""),
    ]),
  ];
  const [chosen, setChosen] = useState<string | undefined>(undefined);
  const number = chosen ?? (own || (numbers[0] ?? ""));
  const parts = partsOfNumber(list, number);
  const layOut = async () => {
    await attempt(async () => (await import("../start-job")).startKnownGood(workbook, words));
    await watch.refresh();
  };
  return (
    <section class="cw-known" aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`}>{words.knownGood.heading}</h2>
      <p class="cw-meta">{words.knownGood.about}</p>
      {list ? (
        <>
          {numbers.length > 0 ? (
            <p class="cw-field-row">
              <label for={`${id}-number`}>{words.knownGood.number}</label>
              <select id={`${id}-number`} value={number} onChange={(event) => setChosen(event.currentTarget.value)}>
                {numbers.map((name) => (
                  <option key={name} value={name}>
                    {name}
                  </option>
                ))}
              </select>
              <span>{parts.length === 0 ? words.knownGood.none : words.knownGood.count(parts.length)}</span>
            </p>
          ) : null}
          {parts.length > 0 ? <Intervals parts={parts} /> : null}
          {open ? <AddPart watch={watch} open={open} /> : null}
        </>
      ) : watch.looked ? (
        <>
          <p class="cw-warning">{words.knownGood.noSheet}</p>
          <button type="button" onClick={() => void layOut()}>
            {words.knownGood.makeSheet}
          </button>
        </>
      ) : null}
    </section>
  );
}

/** What good parts of this number read, reading by reading. */
function Intervals({ parts }: { readonly parts: readonly ListRow[] }): JSX.Element {
  const words = useWords();
  const blocks = parts.map((part) => blockOf(part.job));
  const expected = expectedOfParts(blocks, blocks[0]!);
  return (
    <table class="cw-grid-table cw-intervals">
      <caption>
        {words.knownGood.interval}, V{parts.length >= 3 ? "" : `: ${words.knownGood.notEnough}`}
      </caption>
      <thead>
        <tr>
          <th scope="col">{words.knownGood.reading}</th>
          {PHASES.map((phase) => (
            <th key={phase} scope="col">
              {phase.toUpperCase()}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {DIODE_ROWS.map((row) => (
          <tr key={row}>
            <th scope="row">{words.check.diodeRow[row]}</th>
            {PHASES.map((phase, i) => (
              <td key={phase}>{summary(expected[BLOCK_ROW[row]][i] ?? { reads: "anything" })}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What the diode check itself expects of a part of this number. */
function summary(expected: Expected): string {
  if (expected.reads === "over-range") return "OL";
  return expected.reads === "volts" ? `${expected.low.toFixed(3)}–${expected.high.toFixed(3)}` : "–";
}

/** Adds this job's diode check as a known-good part; only a complete one, and only with a number. */
function AddPart({ watch, open }: { readonly watch: ListWatch; readonly open: OpenJob }): JSX.Element {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const [added, setAdded] = useState<number | undefined>(undefined);
  const { job, typed } = open.before;
  const number = partNumberOf(job);
  const complete = number !== "" && IDS.every((reading) => job.has(reading));
  const add = async () => {
    // Rows may have moved, and the sheet may be called otherwise by now.
    const list = await attempt(() => findList(workbook, isKnownGoodList));
    if (!list) return;
    const cells = new Map<string, string | number>([["regulator-part-number", number]]);
    for (const reading of [...IDS, ...EXTRA]) {
      const cell = typed.get(reading);
      if (job.has(reading) && (typeof cell === "string" || typeof cell === "number")) cells.set(reading, cell);
    }
    const done = await attempt(async () => {
      await workbook.apply([addRowStep(list, cells)]);
      return true;
    });
    if (!done) return;
    await watch.refresh();
    setAdded(list.freeRow + 1);
    announce(words.knownGood.added(list.freeRow + 1));
  };
  return (
    <div class="cw-add">
      <p class="cw-meta">{complete ? words.knownGood.addSure : words.knownGood.addNeeds}</p>
      <button type="button" disabled={!complete} onClick={() => void add()}>
        {words.knownGood.add}
      </button>
      {added === undefined ? null : <p>{words.knownGood.added(added)}</p>}
    </div>
  );
}
