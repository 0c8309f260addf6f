import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { jobList, type JobSummary } from "../workbook/job-sheet";
import type { Workbook } from "../workbook/port";
import type { PaneTools } from "./pane-context";

export interface JobSheets {
  readonly sheets: readonly JobSummary[] | undefined;
  readonly sheet: string | undefined;
  pick(sheet: string): void;
  look(prefer?: string): Promise<void>;
  /** Takes over what a job says of itself now. */
  note(job: JobSummary): void;
}

/** Job sheets of the workbook; the active one is picked when the pane opens. */
export function useJobSheets(workbook: Workbook, attempt: PaneTools["attempt"]): JobSheets {
  const [sheets, setSheets] = useState<readonly JobSummary[] | undefined>(undefined);
  const [sheet, setSheet] = useState<string | undefined>(undefined);
  const known = useRef<readonly string[]>([]);
  const all = useRef("");
  const look = useCallback(
    async (prefer?: string) => {
      const found = await attempt(async () => {
        all.current = (await workbook.sheetNames()).join("\n");
        const list = await jobList(workbook);
        return { list, names: list.map(({ sheet }) => sheet), active: await workbook.activeSheet() };
      });
      if (!found) {
        setSheets((before) => before ?? []);
        return;
      }
      known.current = found.names;
      setSheets(found.list);
      setSheet((before) => {
        const wanted = [prefer, before, found.active, found.names[0]];
        return wanted.find((name) => name !== undefined && found.names.includes(name));
      });
    },
    [workbook, attempt],
  );
  useEffect(() => {
    void look();
    // Sheets are looked through anew only where some were added, renamed or removed.
    const lookIfChanged = async () => {
      const names = await attempt(() => workbook.sheetNames());
      if (names && names.join("\n") !== all.current) await look();
    };
    let last: string | undefined;
    return workbook.onSelection((at) => {
      if (at.sheet === last) return;
      last = at.sheet;
      if (known.current.includes(at.sheet)) setSheet(at.sheet);
      else void lookIfChanged();
    });
  }, [workbook, look, attempt]);
  const note = useCallback((job: JobSummary) => {
    const said = JSON.stringify(job);
    const isNews = (one: JobSummary) => one.sheet === job.sheet && JSON.stringify(one) !== said;
    // Nothing is drawn anew for readings that are typed.
    setSheets((before) => (before?.some(isNews) ? before.map((one) => (isNews(one) ? job : one)) : before));
  }, []);
  return { sheets, sheet, pick: setSheet, look, note };
}
