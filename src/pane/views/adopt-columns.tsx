/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { CATALOGUE, entryOf } from "../../core/readings/catalogue";
import { STAGES } from "../../core/readings/types";
import { isUnitWordFor } from "../../core/readings/units";
import type { HeaderColumn, Meaning } from "../../workbook/adopt-headers";
import type { ColumnSample } from "../../workbook/adopt-table";
import { columnName } from "../../workbook/address";
import type { AdoptableTable, Meanings } from "../adopt";
import { useWords } from "../words/words";

interface ColumnsProps {
  readonly table: AdoptableTable;
  readonly meanings: Meanings;
  readonly sample: (column: number, meaning: Meaning | undefined) => ColumnSample;
  readonly onChange: (column: number, meaning: Meaning | undefined) => void;
}

/** The columns with what they hold, to be corrected; those that nothing was found for are folded away. */
export function AdoptColumns({ table, meanings, sample, onChange }: ColumnsProps): JSX.Element {
  const words = useWords();
  // A column that was corrected stays where it was, so that nothing jumps under the hand.
  const known = table.columns.filter(({ told }) => told !== "nothing");
  const others = table.columns.filter(({ told }) => told === "nothing");
  const rows = (columns: readonly HeaderColumn[]) => (
    <ul class="cw-list cw-adopt-columns">
      {columns.map((one) => (
        <ColumnRow
          key={`${table.sheet} ${one.column}`}
          column={one}
          meaning={meanings.get(one.column)}
          sample={sample(one.column, meanings.get(one.column))}
          onChange={(meaning) => onChange(one.column, meaning)}
        />
      ))}
    </ul>
  );
  const left = others.filter(({ column }) => !meanings.has(column)).length;
  return (
    <>
      <h4>{words.adopt.columns}</h4>
      {rows(known)}
      {others.length > 0 ? (
        <details open={known.length === 0 ? true : undefined}>
          <summary>{words.adopt.others(left)}</summary>
          {rows(others)}
        </details>
      ) : null}
    </>
  );
}

interface ColumnRowProps {
  readonly column: HeaderColumn;
  readonly meaning: Meaning | undefined;
  readonly sample: ColumnSample;
  readonly onChange: (meaning: Meaning | undefined) => void;
}

function ColumnRow({ column, meaning, sample, onChange }: ColumnRowProps): JSX.Element {
  const words = useWords();
  const letter = columnName(column.column);
  const untouched = meaning?.id === column.meaning?.id;
  const told = untouched || column.told === "doubled" ? words.adopt.told[column.told] : "";
  return (
    <li class="cw-adopt-column">
      <p class="cw-adopt-header">
        <b>{letter}</b> {column.header === "" ? <em>{words.adopt.noHeader}</em> : column.header}
      </p>
      {sample.shown.length > 0 ? <p class="cw-meta">{sample.shown.join(" · ")}</p> : null}
      <div class="cw-adopt-meaning">
        <select
          class="cw-input"
          aria-label={words.adopt.meaning(letter)}
          value={meaning?.id ?? ""}
          onChange={({ currentTarget: { value } }) =>
            onChange(value === column.meaning?.id ? column.meaning : value ? { id: value } : undefined)
          }
        >
          <option value="">{words.adopt.leftOut}</option>
          {STAGES.map((stage) => (
            <optgroup key={stage} label={words.stage[stage]}>
              {CATALOGUE.filter((entry) => entry.stage === stage).map((entry) => (
                <option key={entry.id} value={entry.id}>
                  {words.said(entry.label)}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
        {meaning ? <UnitField letter={letter} meaning={meaning} onChange={onChange} /> : null}
      </div>
      {told ? <p class="cw-adopt-told">{told}</p> : null}
      {sample.first ? (
        <p class="cw-adopt-bad">
          {words.adopt.unreadable(sample.unreadable, sample.filled, sample.first.cell)} {words.said(sample.first.why)}
        </p>
      ) : null}
    </li>
  );
}

/** The unit of numbers that stand without one; the catalogue's own until the header or the user says another. */
function UnitField({
  letter,
  meaning,
  onChange,
}: {
  readonly letter: string;
  readonly meaning: Meaning;
  readonly onChange: (meaning: Meaning) => void;
}): JSX.Element | null {
  const words = useWords();
  const id = useId();
  const entry = entryOf(meaning.id);
  const own = entry?.kind === "quantity" ? entry.unit : "1";
  const [text, setText] = useState<string | undefined>(undefined);
  if (entry?.kind !== "quantity" || own === "1" || own === "SG") return null;
  const typed = text ?? meaning.unit ?? own;
  const wrong = text !== undefined && text.trim() !== "" && !isUnitWordFor(text, own);
  const take = (value: string) => {
    setText(value);
    const unit = value.trim();
    const { unit: _before, ...told } = meaning;
    if (unit === "") onChange(told);
    else if (isUnitWordFor(unit, own)) onChange({ ...told, unit });
  };
  return (
    <>
      <input
        class="cw-input cw-adopt-unit"
        aria-label={words.adopt.unit(letter)}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        value={typed}
        size={5}
        autocomplete="off"
        onInput={(event) => take(event.currentTarget.value)}
      />
      {wrong ? (
        <p class="cw-error" id={`${id}-wrong`} role="alert">
          {words.adopt.unitRefused(text, own)}
        </p>
      ) : null}
    </>
  );
}
