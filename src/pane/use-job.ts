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
  const wanted = useRef(sheet);
  wanted.current = sheet;

  const refresh = useCallback(async () => {
    again.current = true;
    if (running.current) return running.current;
    const run = async () => {
      while (again.current) {
        again.current = false;
        const name = wanted.current;
        try {
          const next = name === undefined ? undefined : await openJob(workbook, name);
          if (wanted.current !== name) again.current = true;
          else {
            setOpen((before) => (before && next && sameJob(before, next) ? before : next));
            setFailure(undefined);
          }
        } catch (error) {
          setFailure(error);
        }
      }
    };
    running.current = run().finally(() => {
      running.current = undefined;
    });
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
