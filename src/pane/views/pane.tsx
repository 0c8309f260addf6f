/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import { WorkbookFault, type Workbook } from "../../workbook/port";
import { summaryOf } from "../../workbook/job-sheet";
import { isKnownGoodList } from "../../workbook/known-good-sheet";
import { isVisitList } from "../../workbook/visits-sheet";
import { PaneContext, type PaneTools } from "../pane-context";
import { keepSettings, loadSettings, Drafts, type Keeper, type Language, type PaneSettings } from "../settings";
import { useJob } from "../use-job";
import { useJobSheets } from "../use-job-sheets";
import { useLanguage } from "../use-language";
import { useSheetNames } from "../use-sheet-names";
import { useWords, WordsContext } from "../words/words";
import { useList } from "../use-list";
import { AdoptView } from "./adopt-view";
import { CounterDoor } from "./counter-door";
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
  readonly onLanguage?: ((language: Language) => void) | undefined;
}

/** The pane in the language of its settings. */
export function Pane({ workbook, keeper, language, onLanguage }: PaneProps): JSX.Element | null {
  const [settings, setSettings] = useState(() => loadSettings(keeper, language));
  const words = useLanguage(settings.language);
  const changeSettings = (next: PaneSettings) => {
    setSettings(next);
    keepSettings(keeper, next);
    if (next.language !== settings.language) onLanguage?.(next.language);
  };
  if (!words) return null;
  return (
    <WordsContext.Provider value={words}>
      <WholePane workbook={workbook} keeper={keeper} settings={settings} onSettings={changeSettings} />
    </WordsContext.Provider>
  );
}

interface WholePaneProps {
  readonly workbook: Workbook;
  readonly keeper: Keeper | undefined;
  readonly settings: PaneSettings;
  readonly onSettings: (next: PaneSettings) => void;
}

/** Which job, which view, what went wrong. */
function WholePane({ workbook, keeper, settings, onSettings }: WholePaneProps): JSX.Element {
  const words = useWords();
  const drafts = useMemo(() => new Drafts(keeper), [keeper]);
  const [section, setSection] = useState<Section>("job");
  const [said, setSaid] = useState("");
  const [failure, setFailure] = useState<string | undefined>(undefined);

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
  const names = useSheetNames(workbook);
  const announce = useCallback((text: string) => setSaid(text), []);
  const tools = useMemo<PaneTools>(
    () => ({ workbook, settings, drafts, sheets: names, announce, attempt }),
    [workbook, settings, drafts, names, announce, attempt],
  );
  const jobs = useJobSheets(workbook, attempt);
  const watch = useJob(workbook, jobs.sheet);
  const knownGood = useList(workbook, isKnownGoodList, names);
  const visits = useList(workbook, isVisitList, names);
  const [starting, setStarting] = useState(false);

  const { look, note } = jobs;
  useEffect(() => {
    // The picker and the counter know a job by what stands in its sheet now.
    if (watch.open) note(summaryOf(watch.open.sheet, watch.open.before.typed));
  }, [watch.open, note]);
  useEffect(() => {
    if (watch.failure === undefined) return;
    setFailure(failureWords(watch.failure));
    // The sheet may be gone or renamed: the list says what there is now.
    if (watch.failure instanceof WorkbookFault && watch.failure.reason === "missing") void look();
  }, [watch.failure, look]);

  // Whoever changes the job here stays at the picker; a click into another sheet leaves the focus there.
  const changing = useRef(false);
  const pick = (sheet: string) => {
    changing.current = true;
    jobs.pick(sheet);
  };
  const reopened = async (sheet: string) => {
    changing.current = sheet !== jobs.sheet;
    await jobs.look(sheet);
  };
  const start = async () => {
    setStarting(true);
    changing.current = true;
    // Templates and what lays them out are a third of the pane, and asked for once a day.
    const sheet = await attempt(async () => (await import("../start-job")).startJob(workbook, words));
    if (sheet !== undefined) {
      await jobs.look(sheet);
      await Promise.all([knownGood.refresh(), visits.refresh()]);
      announce(words.jobs.started(sheet));
    } else changing.current = false;
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
      changing={changing}
      settled={watch.open !== undefined}
      onPick={pick}
      onStart={() => void start()}
      onShow={() => void show()}
    />
  );

  return (
    <PaneContext.Provider value={tools}>
      <div class="cw-body" lang={words.language.code}>
        <header>
          <h1 class="cw-hidden">{words.title}</h1>
          <Navigation section={section} onGo={setSection} />
        </header>
        {failure === undefined ? null : <Failure text={failure} />}
        <main>
          <Guarded key={section === "counter" ? section : `${section} ${jobs.sheet ?? ""}`}>
            {section === "job" ? (
              watch.open ? (
                <JobView
                  key={watch.open.sheet}
                  open={watch.open}
                  knownGood={knownGood.list}
                  visits={visits}
                  bar={bar}
                  onWritten={watch.refresh}
                  onReopened={reopened}
                />
              ) : (
                bar
              )
            ) : null}
            {section === "counter" ? (
              <CounterDoor
                sheets={jobs.sheets}
                sheet={jobs.sheet}
                open={watch.open}
                knownGood={knownGood.list}
                visits={visits}
                onPick={jobs.pick}
                onLook={jobs.look}
              />
            ) : null}
            {section === "knownGood" ? <KnownGoodView watch={knownGood} open={watch.open} /> : null}
            {section === "tables" ? <AdoptView /> : null}
            {section === "settings" ? <SettingsView settings={settings} onChange={onSettings} /> : null}
          </Guarded>
        </main>
        <p class="cw-hidden" role="status" aria-live="polite">
          {said}
        </p>
      </div>
    </PaneContext.Provider>
  );
}

/** What a host says in words that we do not know stays in English, and is marked as such. */
function Failure({ text }: { readonly text: string }): JSX.Element {
  const words = useWords();
  const [told, setTold] = useState("");
  useEffect(() => {
    let wanted = true;
    void words.refused(text).then((said) => wanted && setTold(said));
    return () => {
      wanted = false;
    };
  }, [words, text]);
  if (told === "") return <></>;
  return (
    <div class="cw-failure" role="alert">
      <strong>{words.fault.heading}.</strong> <span lang={told === text ? "en" : undefined}>{told}</span>
    </div>
  );
}

function aboutJob(open: ReturnType<typeof useJob>["open"]): string {
  const text = (id: string) => String(open?.before.typed.get(id) ?? "").trim();
  return [text("job-number"), text("machine-name"), text("complaint")].filter(Boolean).join(" · ");
}

function failureWords(error: unknown): string {
  if (error instanceof WorkbookFault) return error.message;
  return error instanceof Error ? error.message : String(error);
}
