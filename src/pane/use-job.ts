import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { Workbook } from "../workbook/port";
import { openJob, sameJob, type OpenJob } from "./open-job";

export interface JobWatch {
  readonly open: OpenJob | undefined;
  readonly failure: unknown;
  refresh(): Promise<void>;
}

/** Follows a job sheet: read once, then again after edits and recalculation; bursts are merged. */
export function useJob(workbook: Workbook, sheet: string | undefined): JobWatch {
  const [open, setOpen] = useState<OpenJob | undefined>();
  const [failure, setFailure] = useState<unknown>();
  const running = useRef<Promise<void> | undefined>(undefined);
  const again = useRef(false);
  // After a reading that failed, the next one counts as new even where it holds the same.
  const behind = useRef(false);
  const wanted = useRef(sheet);
  wanted.current = sheet;

  const refresh = useCallback(() => {
    again.current = true;
    const readOnce = async () => {
      const name = wanted.current;
      try {
        const next = name === undefined ? undefined : await openJob(workbook, name);
        if (wanted.current !== name) again.current = true;
        else {
          const anew = behind.current;
          behind.current = false;
          setOpen((before) => (!anew && before && next && sameJob(before, next) ? before : next));
          setFailure(undefined);
        }
      } catch (error) {
        behind.current = true;
        setFailure(error);
      }
    };
    const run = async () => {
      // What asks for a refresh in this moment joins it.
      await Promise.resolve();
      while (again.current) {
        again.current = false;
        await readOnce();
      }
      // In the same breath as the last look at `again`: what asks later starts anew.
      running.current = undefined;
    };
    running.current ??= run();
    return running.current;
  }, [workbook]);

  useEffect(() => {
    void refresh();
    if (sheet === undefined) return;
    const stops = [
      workbook.onEdit((change) => {
        if (change.sheet === sheet) void refresh();
      }),
      workbook.onCalculated(() => void refresh()),
    ];
    return () => stops.forEach((stop) => stop());
  }, [workbook, sheet, refresh]);

  return { open: open?.sheet === sheet ? open : undefined, failure, refresh };
}
