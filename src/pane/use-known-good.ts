import { useCallback, useEffect, useState } from "preact/hooks";
import { readKnownGood, type KnownGoodSheet } from "../workbook/known-good-sheet";
import type { Workbook } from "../workbook/port";

export interface KnownGoodWatch {
  readonly list: KnownGoodSheet | undefined;
  readonly looked: boolean;
  refresh(): Promise<void>;
}

/** Follows the workbook's list of known-good parts. */
export function useKnownGood(workbook: Workbook): KnownGoodWatch {
  const [list, setList] = useState<KnownGoodSheet | undefined>(undefined);
  const [looked, setLooked] = useState(false);
  const refresh = useCallback(async () => {
    try {
      setList(await readKnownGood(workbook));
    } catch {
      // Without the list the pane judges without it and says so; the job itself is not held up.
      setList(undefined);
    }
    setLooked(true);
  }, [workbook]);
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
