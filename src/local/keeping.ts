import type { Desk } from "./desk";
import { ChangedElsewhere, SHAPE, WorkbookKeeper } from "./kept-workbook";
import type { Notices } from "./notices";
import { turnOfTab } from "./one-tab";
import type { PageWords } from "./words";

/** What is typed in one go is written in one go; the first change of it waits no longer than this. */
const WAIT_MS = 250;

/**
 * Shows the workbook that the browser kept, else the demo one, and from then on keeps what is changed.
 * Whatever stops it from keeping is said, and the workbook can still be saved as a file.
 */
export async function keepWorkbook(desk: Desk, notices: Notices, words: PageWords): Promise<Keeping> {
  const keeping = new Keeping(desk, notices, words);
  await keeping.start();
  return keeping;
}

export class Keeping {
  private keeper: WorkbookKeeper | undefined;
  private ours = false;
  private lost: (() => void) | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private writing: Promise<void> = Promise.resolve();
  private underWay = 0;

  constructor(
    private readonly desk: Desk,
    private readonly notices: Notices,
    private readonly words: PageWords,
  ) {}

  async start(): Promise<void> {
    this.keeper = await WorkbookKeeper.open().catch((error: unknown) => this.cannotKeep(error));
    const turn = await turnOfTab(async () => {
      await this.flush();
      this.stop(this.words.takenAway);
    });
    const restored = await this.restore();
    this.ours = turn.ours && restored && this.keeper !== undefined;
    if (!turn.ours)
      this.notices.show("keeping", {
        text: this.words.otherTab,
        stays: true,
        action: {
          label: this.words.keepHere,
          // What the other tab has written meanwhile is what is kept: it is read anew.
          run: () => void turn.take().then(() => location.reload()),
        },
      });
    this.desk.onChange(() => this.changed());
    addEventListener("pagehide", () => void this.flush());
    addEventListener("beforeunload", (event) => {
      if (!this.unwritten) return;
      void this.flush();
      // The browser asks before it throws away what is not written yet.
      event.preventDefault();
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") void this.flush();
    });
  }

  /** True where this tab is the one that keeps the workbook. */
  get keeps(): boolean {
    return this.ours;
  }

  /** Called when another tab takes over. */
  onLost(listener: () => void): void {
    this.lost = listener;
  }

  /** The user lets go of what is kept, whatever it is. */
  async replaceKept(): Promise<void> {
    await this.keeper?.read();
    if (navigator.locks === undefined || this.ours || this.refused) {
      this.refused = false;
      this.ours = this.keeper !== undefined;
      this.notices.clear("keeping");
    }
    this.changed();
  }

  /** Writes at once what is not written yet. */
  async flush(): Promise<void> {
    if (this.timer !== undefined) {
      clearTimeout(this.timer);
      this.timer = undefined;
      this.write();
    }
    await this.writing;
  }

  /** What was kept could not be opened: it stays until the user lets go of it. */
  private refused = false;

  private async restore(): Promise<boolean> {
    const kept = await this.keeper?.read().catch(() => undefined);
    try {
      if (kept) {
        if (kept.shape !== SHAPE) throw new Error(`shape ${kept.shape}`);
        await this.desk.showSnapshot(kept.name, kept.snapshot);
        return true;
      }
    } catch (error) {
      this.refused = true;
      this.notices.show("keeping", { text: this.words.notRestored(reasonOf(error)), stays: true });
    }
    await this.desk.showDemo();
    return kept === undefined;
  }

  private changed(): void {
    // Counted from the first change: a sheet that goes on calculating must not put the writing off.
    if (!this.ours || this.timer !== undefined) return;
    this.timer = setTimeout(() => {
      this.timer = undefined;
      this.write();
    }, WAIT_MS);
    this.tell();
  }

  private get unwritten(): boolean {
    return this.timer !== undefined || this.underWay > 0;
  }

  /** For those who wait for it: whether all that was changed is kept. */
  private tell(): void {
    document.documentElement.dataset["kept"] = this.unwritten ? "not yet" : "all";
  }

  private write(): void {
    const { keeper } = this;
    if (!keeper || !this.ours) return this.tell();
    const [name, snapshot] = [this.desk.name, this.desk.snapshot()];
    this.underWay += 1;
    this.writing = this.writing
      .then(() => keeper.write(name, snapshot))
      .catch((error: unknown) => {
        if (error instanceof ChangedElsewhere) this.stop(this.words.changedElsewhere);
        else this.cannotKeep(error);
      })
      .finally(() => {
        this.underWay -= 1;
        this.tell();
      });
  }

  private stop(text: string): void {
    this.ours = false;
    this.lost?.();
    this.notices.show("keeping", { text, stays: true });
  }

  private cannotKeep(error: unknown): undefined {
    this.notices.show("keeping", { text: this.words.notKept(reasonOf(error)), stays: true });
    return undefined;
  }
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
