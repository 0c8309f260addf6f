/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useEffect, useId, useState } from "preact/hooks";
import { PHASES } from "../../core/readings/entries";
import { DIODE_ROWS } from "../diode-block";
import { useWords } from "../words/words";
import { Control } from "./reading-field";
import { StateShape } from "./state-mark";
import { useField, type FieldProps } from "./use-field";

/**
 * The twelve readings of a diode check as a grid: a row for each bank and direction, a column for
 * each phase, in the order in which the leads are moved least.
 */
export function DiodeGrid({
  fieldOf,
  ids,
  onFocus,
}: {
  readonly fieldOf: (id: string) => FieldProps | undefined;
  readonly ids: ReadonlySet<string>;
  readonly onFocus: (id: string) => void;
}): JSX.Element {
  const words = useWords();
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map());
  const phases = PHASES.filter((phase) => ids.has(`upper-forward-${phase}`));
  const report = (id: string, error: string | undefined) =>
    setErrors((all) => {
      if (all.get(id) === error) return all;
      const next = new Map(all);
      if (error === undefined) next.delete(id);
      else next.set(id, error);
      return next;
    });
  return (
    <table class="cw-grid-table">
      <caption class="cw-hidden">{words.check.readings}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="cw-hidden">{words.check.leads}</span>
          </th>
          {phases.map((phase) => (
            <th key={phase} scope="col">
              {phase.toUpperCase()}
            </th>
          ))}
        </tr>
      </thead>
      {DIODE_ROWS.map((row) => {
        const wrong = phases.map((phase) => errors.get(`${row}-${phase}`)).filter((e): e is string => e !== undefined);
        return (
          <tbody key={row}>
            <tr>
              <th scope="row">{words.check.diodeRow[row]}</th>
              {phases.map((phase) => {
                const field = fieldOf(`${row}-${phase}`);
                return (
                  <td key={phase}>
                    {field ? (
                      <GridCell field={field} onFocus={() => onFocus(`${row}-${phase}`)} report={report} />
                    ) : null}
                  </td>
                );
              })}
            </tr>
            {wrong.length > 0 ? (
              <tr>
                <td colSpan={phases.length + 1}>
                  {wrong.map((error) => (
                    <p key={error} class="cw-error" role="alert">
                      {error}
                    </p>
                  ))}
                </td>
              </tr>
            ) : null}
          </tbody>
        );
      })}
    </table>
  );
}

function GridCell({
  field: props,
  onFocus,
  report,
}: {
  readonly field: FieldProps;
  readonly onFocus: () => void;
  readonly report: (id: string, error: string | undefined) => void;
}): JSX.Element {
  const words = useWords();
  const field = useField(props);
  const id = useId();
  const { entry } = props;
  const state = field.judged?.state ?? "not read";
  useEffect(() => report(entry.id, field.error), [entry.id, field.error]);
  return (
    <div class="cw-grid-cell" data-reading={entry.id}>
      <Control entry={entry} field={field} id={id} onFocus={onFocus} label={`${words.said(entry.label)}, V`} />
      <span class="cw-grid-state" id={`${id}-notes`}>
        <StateShape state={state} size={13} />
        {words.state[state]}
      </span>
    </div>
  );
}
