import { useCallback, useEffect, useState } from "preact/hooks";
import { findList, type ListKind, type ListSheet } from "../workbook/list-sheet";
import type { Workbook } from "../workbook/port";

export interface ListWatch {
  readonly list: ListSheet | undefined;
  readonly looked: boolean;
  refresh(): Promise<void>;
}

/**
 * Follows one of the workbook's lists.
 *
 * @param names - Of the workbook's sheets, empty until they are known; the list is looked for among them
 */
export function useList(workbook: Workbook, isKind: ListKind, names: string): ListWatch {
  const [list, setList] = useState<ListSheet | undefined>(undefined);
  const [looked, setLooked] = useState(false);
  const refresh = useCallback(async () => {
    // Without the list the pane works without it and says so; the job itself is not held up.
    const found = await findList(workbook, isKind).catch(() => undefined);
    setList(found);
    setLooked(true);
  }, [workbook, isKind]);
  useEffect(() => {
    if (names !== "") void refresh();
  }, [refresh, names]);
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
