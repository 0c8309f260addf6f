import { useState } from "preact/hooks";
import type { ListRow } from "../workbook/list-sheet";
import { usePane } from "./pane-context";
import { reopenVisit } from "./visits";
import { useWords } from "./words/words";

/** Opens a visit again; `onReopened` is told the sheet. One at a time. */
export function useReopen(onReopened: (sheet: string) => Promise<void>): {
  readonly busy: boolean;
  reopen(visit: ListRow): Promise<void>;
} {
  const { workbook, attempt, announce } = usePane();
  const words = useWords();
  const [busy, setBusy] = useState(false);
  const reopen = async (visit: ListRow) => {
    setBusy(true);
    const sheet = await attempt(() => reopenVisit(workbook, visit, words));
    if (sheet !== undefined) {
      announce(words.visits.reopened(sheet));
      await onReopened(sheet);
    }
    setBusy(false);
  };
  return { busy, reopen };
}
