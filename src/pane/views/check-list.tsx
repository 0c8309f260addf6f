/** @jsxImportSource preact */
import type { JSX } from "preact";
import { stagesOf, type CheckProgress } from "../working-order";
import { useWords } from "../words/words";
import { StateMark } from "./state-mark";

interface CheckListProps {
  readonly checks: readonly CheckProgress[];
  readonly suggested: string | undefined;
  readonly onOpen: (id: string) => void;
}

/** The checks in working order, by stage, each with what has been read of it. */
export function CheckList({ checks, suggested, onOpen }: CheckListProps): JSX.Element {
  const words = useWords();
  const others = checks.filter(({ applies }) => !applies);
  return (
    <nav aria-label={words.checks.heading} class="cw-checks">
      <h2>{words.checks.heading}</h2>
      {stagesOf(checks.filter(({ applies }) => applies)).map(({ stage, checks: inStage }) => (
        <div key={stage}>
          <h3>{words.stage[stage]}</h3>
          <ul class="cw-list">
            {inStage.map((progress) => (
              <CheckRow
                key={progress.check.id}
                progress={progress}
                suggested={progress.check.id === suggested}
                onOpen={onOpen}
              />
            ))}
          </ul>
        </div>
      ))}
      {others.length > 0 ? (
        <details>
          <summary>{words.checks.otherMachines}</summary>
          <ul class="cw-list">
            {others.map((progress) => (
              <CheckRow key={progress.check.id} progress={progress} suggested={false} onOpen={onOpen} />
            ))}
          </ul>
        </details>
      ) : null}
    </nav>
  );
}

function CheckRow({
  progress,
  suggested,
  onOpen,
}: {
  readonly progress: CheckProgress;
  readonly suggested: boolean;
  readonly onOpen: (id: string) => void;
}): JSX.Element {
  const words = useWords();
  const { check, read, entries, state } = progress;
  return (
    <li>
      <button type="button" class="cw-row" id={checkButtonId(check.id)} onClick={() => onOpen(check.id)}>
        <span class="cw-row-name">
          {words.said(check.label)}
          {suggested ? <em> {words.checks.suggested}</em> : null}
        </span>
        <span class="cw-row-end">
          {state === "not read" ? null : <StateMark state={state} />}
          <small>{words.checks.progress(read, entries.length)}</small>
        </span>
      </button>
    </li>
  );
}

/** Where the focus returns to when a check is left. */
export function checkButtonId(checkId: string): string {
  return `cw-open-${checkId}`;
}
