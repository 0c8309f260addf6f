/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import { WorkbookFault, type Workbook } from "../../workbook/port";
import { jobList, type JobSummary } from "../../workbook/job-sheet";
import { isKnownGoodList } from "../../workbook/known-good-sheet";
import { isVisitList } from "../../workbook/visits-sheet";
import { PaneContext, type PaneTools } from "../pane-context";
import { keepSettings, loadSettings, Drafts, type Keeper, type Language, type PaneSettings } from "../settings";
import { useJob } from "../use-job";
import { ENGLISH } from "../words/english";
import { SPANISH } from "../words/spanish";
import { WordsContext, type Words } from "../words/words";
import { useList } from "../use-list";
import { AdoptView } from "./adopt-view";
import { Guarded } from "./guarded";
import { JobBar } from "./job-bar";
import { JobView } from "./job-view";
import { KnownGoodView } from "./known-good-view";
import { Navigation, type Section } from "./navigation";
import { SettingsView } from "./settings-view";

export interface PaneProps {
  readonly workbook: Workbook;
  readonly keeper: Keeper | undefined;
  readonly language: Language;
}

const WORDS: Readonly<Record<Language, Words>> = { en: ENGLISH, es: SPANISH };

/** The whole pane: which job, which view, what went wrong. */
export function Pane({ workbook, keeper, language }: PaneProps): JSX.Element {
  const [settings, setSettings] = useState(() => loadSettings(keeper, language));
  const drafts = useMemo(() => new Drafts(keeper), [keeper]);
  const [section, setSection] = useState<Section>("job");
  const [said, setSaid] = useState("");
  const [failure, setFailure] = useState<string | undefined>(undefined);
  const words = WORDS[settings.language];

  const attempt = useCallback(async <T,>(work: () => Promise<T>): Promise<T | undefined> => {
    try {
      const result = await work();
      setFailure(undefined);
      return result;
    } catch (error) {
      setFailure(failureWords(error));
      return undefined;
    }
  }, []);
  const announce = useCallback((text: string) => setSaid(text), []);
  const tools = useMemo<PaneTools>(
    () => ({ workbook, settings, drafts, announce, attempt }),
    [workbook, settings, drafts, announce, attempt],
  );
  const jobs = useJobSheets(workbook, attempt);
  const watch = useJob(workbook, jobs.sheet);
  const knownGood = useList(workbook, isKnownGoodList);
  const visits = useList(workbook, isVisitList);
  const [starting, setStarting] = useState(false);

  const { look } = jobs;
  useEffect(() => {
    if (watch.failure === undefined) return;
    setFailure(failureWords(watch.failure));
    // The sheet may be gone or renamed: the list says what there is now.
    if (watch.failure instanceof WorkbookFault && watch.failure.reason === "missing") void look();
  }, [watch.failure, look]);

  const changeSettings = (next: PaneSettings) => {
    setSettings(next);
    keepSettings(keeper, next);
  };

  const start = async () => {
    setStarting(true);
    // Templates and what lays them out are a third of the pane, and asked for once a day.
    const sheet = await attempt(async () => (await import("../start-job")).startJob(workbook));
    if (sheet !== undefined) {
      await jobs.look(sheet);
      await Promise.all([knownGood.refresh(), visits.refresh()]);
      announce(words.jobs.started(sheet));
    }
    setStarting(false);
  };
  const show = () =>
    attempt(async () => {
      if (jobs.sheet !== undefined) await workbook.activateSheet(jobs.sheet);
    });
  const bar = (
    <JobBar
      sheets={jobs.sheets}
      sheet={jobs.sheet}
      about={aboutJob(watch.open)}
      starting={starting}
      onPick={jobs.pick}
      onStart={() => void start()}
      onShow={() => void show()}
    />
  );

  return (
    <WordsContext.Provider value={words}>
      <PaneContext.Provider value={tools}>
        <div class="cw-body" lang={words.language.code}>
          <header>
            <h1 class="cw-hidden">{words.title}</h1>
            <Navigation section={section} onGo={setSection} />
          </header>
          {failure === undefined ? null : (
            <div class="cw-failure" role="alert">
              <strong>{words.fault.heading}.</strong> {failure}
            </div>
          )}
          <main>
            <Guarded key={`${section} ${jobs.sheet ?? ""}`}>
              {section === "job" ? (
                watch.open ? (
                  <JobView
                    key={watch.open.sheet}
                    open={watch.open}
                    knownGood={knownGood.list}
                    visits={visits}
                    bar={bar}
                    onWritten={watch.refresh}
                    onReopened={jobs.look}
                  />
                ) : (
                  bar
                )
              ) : null}
              {section === "knownGood" ? <KnownGoodView watch={knownGood} open={watch.open} /> : null}
              {section === "tables" ? <AdoptView /> : null}
              {section === "settings" ? <SettingsView settings={settings} onChange={changeSettings} /> : null}
            </Guarded>
          </main>
          <p class="cw-hidden" role="status" aria-live="polite">
            {said}
          </p>
        </div>
      </PaneContext.Provider>
    </WordsContext.Provider>
  );
}

interface JobSheets {
  readonly sheets: readonly JobSummary[] | undefined;
  readonly sheet: string | undefined;
  pick(sheet: string): void;
  look(prefer?: string): Promise<void>;
}

/** Job sheets of the workbook; the active one is picked when the pane opens. */
function useJobSheets(workbook: Workbook, attempt: PaneTools["attempt"]): JobSheets {
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
  return { sheets, sheet, pick: setSheet, look };
}

function aboutJob(open: ReturnType<typeof useJob>["open"]): string {
  const text = (id: string) => String(open?.before.typed.get(id) ?? "").trim();
  return [text("job-number"), text("machine-name"), text("complaint")].filter(Boolean).join(" · ");
}

function failureWords(error: unknown): string {
  if (error instanceof WorkbookFault) return error.message;
  return error instanceof Error ? error.message : String(error);
}
