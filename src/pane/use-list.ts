import { useCallback, useEffect, useState } from "preact/hooks";
import { findList, type ListKind, type ListSheet } from "../workbook/list-sheet";
import type { Workbook } from "../workbook/port";

export interface ListWatch {
  readonly list: ListSheet | undefined;
  readonly looked: boolean;
  refresh(): Promise<void>;
}

/** Follows one of the workbook's lists. */
export function useList(workbook: Workbook, isKind: ListKind): ListWatch {
  const [list, setList] = useState<ListSheet | undefined>(undefined);
  const [looked, setLooked] = useState(false);
  const refresh = useCallback(async () => {
    try {
      setList(await findList(workbook, isKind));
    } catch {
      // Without the list the pane works without it and says so; the job itself is not held up.
      setList(undefined);
    }
    setLooked(true);
  }, [workbook, isKind]);
  useEffect(() => {
    void refresh();
  }, [refresh]);
  const sheet = list?.sheet;
  useEffect(
    () =>
      workbook.onEdit((change) => {
        if (change.sheet === sheet) void refresh();
      }),
    [workbook, sheet, refresh],
  );
  return { list, looked, refresh };
}
