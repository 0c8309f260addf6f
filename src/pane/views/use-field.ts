import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { isBlank, isCellError } from "../../core/cell";
import type { Judged, Limit } from "../../core/judgement/types";
import type { Entry, Measured } from "../../core/readings/types";
import { faultMessage } from "../../core/result";
import { readTyped, selectedText, shownCell, writeReading, type OpenJob, type Visit } from "../open-job";
import { usePane } from "../pane-context";
import { useWords } from "../words/words";

/** One reading as its field needs it. */
export interface FieldProps {
  readonly entry: Entry;
  /** The job sheet as it was last read. */
  readonly open: OpenJob;
  readonly visit: Visit;
  readonly judged?: Judged | undefined;
  /** The limit that a reading not taken yet will be held against. */
  readonly expected?: (() => Limit | undefined) | undefined;
  /** How the reading would be judged if this were its value. */
  readonly preview?: ((measured: Measured) => Judged | undefined) | undefined;
  /** Called once a value stands in the sheet, to read it anew. */
  readonly onWritten: () => Promise<void>;
  /** Called once a value stands in the sheet and Enter asked to go on. */
  readonly moveOn?: (() => void) | undefined;
}

export interface Field {
  readonly text: string;
  readonly error: string | undefined;
  /** What the sheet holds, where it differs from an unsaved text. */
  readonly sheetHolds: string | undefined;
  readonly judged: Judged | undefined;
  input(text: string): void;
  /** Writes what stands in the control now. */
  commit(typed: string, moveOn: boolean): Promise<void>;
  revert(): void;
  take(): Promise<void>;
}

/** Typing into a field: kept as typed, written when it can be read, explained when it cannot. */
export function useField({ entry, open, visit, judged, expected, preview, onWritten, moveOn }: FieldProps): Field {
  const { settings, drafts, workbook, announce, attempt } = usePane();
  const words = useWords();
  // The text kept while it cannot be read.
  const draftKey = visit === "before" ? `${open.sheet}|${entry.id}` : `${open.sheet}|${visit}|${entry.id}`;
  const cell = open[visit].typed.get(entry.id);
  const fault = open[visit].faults.get(entry.id);
  const inSheet = shownCell(cell, entry, settings.temperatures);
  const [text, setText] = useState(() => drafts.get(draftKey) ?? inSheet);
  const [error, setError] = useState<string | undefined>(undefined);
  const dirty = text !== inSheet;
  // The sheet changed under an untouched field: show the sheet.
  const [shown, setShown] = useState(inSheet);
  const written = useRef<readonly string[]>([]);
  useEffect(() => {
    written.current = [];
  }, [open, inSheet]);
  // Before anything else can be typed: an effect that came later would take away the first letter of it.
  useLayoutEffect(() => {
    if (text === shown) {
      setText(inSheet);
      setError(undefined);
    }
    setShown(inSheet);
    // Only when the sheet was read anew: what was written but not read back yet stays as it was written.
  }, [open, inSheet]);
  useEffect(() => {
    if (drafts.get(draftKey) !== undefined) explain(text);
    // Only when a field comes up with a text that was kept from before.
  }, [draftKey]);

  const explain = (typed: string) => {
    const read = readTyped(typed, entry, settings.temperatures);
    setError(read.ok ? undefined : words.said(faultMessage(read.fault)));
    return read;
  };

  const commitText = async (typed: string, move: boolean) => {
    // Leaving a field right after Enter must not write the same a second time.
    if (typed === inSheet || written.current.includes(typed)) {
      drafts.set(draftKey, undefined);
      if (move && (fault === undefined || isBlank(cell))) moveOn?.();
      return;
    }
    const read = explain(typed);
    if (!read.ok) {
      drafts.set(draftKey, typed);
      return;
    }
    const done = await attempt(async () => {
      await writeReading(workbook, open, visit, entry.id, read.value.write);
      return true;
    });
    if (!done) {
      drafts.set(draftKey, typed);
      return;
    }
    await onWritten();
    drafts.set(draftKey, undefined);
    const shownNow = shownCell(read.value.write, entry, settings.temperatures);
    written.current = [typed, shownNow];
    setText(shownNow);
    setShown(shownNow);
    const state = read.value.measured ? preview?.(read.value.measured)?.state : undefined;
    announce(
      words.field.saved(
        words.said(entry.label),
        state ? words.state[state] : read.value.measured ? shownNow : words.state["not read"],
      ),
    );
    if (move) moveOn?.();
  };

  const live = (): Judged | undefined => {
    if (!dirty) return judged && judged.state === "not read" ? withLimit(judged, expected?.()) : judged;
    const read = readTyped(text, entry, settings.temperatures);
    return read.ok && read.value.measured ? preview?.(read.value.measured) : undefined;
  };

  const cellError =
    fault && !dirty
      ? isCellError(cell)
        ? `${words.said(entry.label)}: ${cell.error}`
        : words.said(faultMessage(fault))
      : undefined;
  return {
    text,
    error: error ?? cellError,
    sheetHolds: dirty && error !== undefined && !isBlank(cell) ? inSheet : undefined,
    judged: live(),
    input: (typed) => {
      setText(typed);
      setError(undefined);
    },
    commit: commitText,
    revert: () => {
      drafts.set(draftKey, undefined);
      setText(inSheet);
      setError(undefined);
    },
    take: async () => {
      const taken = await attempt(() => selectedText(workbook));
      if (!taken) return;
      if (!taken.ok) {
        setError(words.said(faultMessage(taken.fault)));
        return;
      }
      setText(taken.value.text);
      await commitText(taken.value.text, false);
    },
  };
}

function withLimit(judged: Judged, limit: Limit | undefined): Judged {
  return limit ? { ...judged, limit } : judged;
}
