import type { Desk } from "./desk";
import type { Keeping } from "./keeping";
import type { Notices } from "./notices";
import type { PageWords, SpokenWords } from "./words";

/** More than these are counted, not named. */
const MOST_NAMED = 12;
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** The buttons that open and save files and start anew; a question comes before anything is lost. */
export function fileButtons(
  root: HTMLElement,
  desk: Desk,
  keeping: Keeping,
  notices: Notices,
  { words, refused }: SpokenWords,
): void {
  const button = (name: "open" | "save" | "anew") => root.querySelector<HTMLButtonElement>(`[data-file="${name}"]`)!;
  const chooser = root.querySelector<HTMLInputElement>('input[type="file"]')!;
  const buttons = (["open", "save", "anew"] as const).map(button);

  /** One thing at a time: a second click while a file is made would start it again. */
  const doing = async (work: () => Promise<void>, failed: (reason: string) => string) => {
    for (const one of buttons) one.disabled = true;
    try {
      await work();
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      notices.show("file", { text: failed(await refused(reason)), stays: true });
    } finally {
      for (const one of buttons) one.disabled = false;
    }
  };

  button("open").addEventListener("click", () => chooser.click());
  chooser.addEventListener("change", () => {
    const file = chooser.files?.[0];
    // The same file chosen again is a change too.
    chooser.value = "";
    if (!file) return;
    void doing(async () => {
      const { stepsOfFile } = await import("../hosts/file/file-steps");
      const { steps, lost } = await stepsOfFile(new Uint8Array(await file.arrayBuffer()), file.name);
      if (!confirm(words.replace(file.name))) return;
      await desk.showSteps(file.name.replace(/\.[^.]+$/u, ""), steps);
      await keeping.replaceKept();
      notices.show("file", opened(file.name, await Promise.all(lost.map(refused)), words));
    }, words.notOpened);
  });
  button("save").addEventListener("click", () => {
    void doing(async () => {
      const name = `${desk.name}.xlsx`;
      download(name, new Blob([(await desk.file()) as BlobPart], { type: XLSX }));
      notices.show("file", { text: words.saved(name) });
    }, words.notSaved);
  });
  button("anew").addEventListener("click", () => {
    if (!confirm(words.startAnew)) return;
    void doing(async () => {
      await desk.showDemo();
      await keeping.replaceKept();
      notices.clear("file");
    }, words.notOpened);
  });
}

function opened(name: string, lost: readonly string[], words: PageWords) {
  if (lost.length === 0) return { text: words.opened(name) };
  const more = lost.length - MOST_NAMED;
  return {
    text: words.openedWithout(name),
    lines: [...lost.slice(0, MOST_NAMED), ...(more > 0 ? [words.more(more)] : [])],
    stays: true,
  };
}

function download(name: string, content: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  // The browser reads it after the click has been dealt with.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
