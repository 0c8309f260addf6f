/** Only one tab keeps the workbook; the others show it and say so. */
export interface Turn {
  /** True in the tab that keeps the workbook. */
  readonly ours: boolean;
  /** Asks the tab that has it to write what it has and let go; resolves when this tab may keep it. */
  take(): Promise<void>;
}

const LOCK = "chargewright.workbook";
const LONGEST_WAIT_MS = 5000;

/**
 * Finds out whether another tab keeps the workbook. The lock ends with the tab, however it ends.
 *
 * @param letGo - Writes what there is and stops keeping, because another tab asked for it
 */
export async function turnOfTab(letGo: () => Promise<void>): Promise<Turn> {
  // Where the browser has no locks, the revision of what is kept still stops one tab from overwriting another.
  if (!("locks" in navigator)) return { ours: true, take: async () => undefined };
  const channel = new BroadcastChannel(LOCK);
  let release: (() => void) | undefined;
  const hold = (options: LockOptions): Promise<boolean> =>
    new Promise((resolve, reject) => {
      navigator.locks
        .request(LOCK, options, (lock) => {
          if (!lock) return resolve(false);
          resolve(true);
          return new Promise<void>((done) => (release = done));
        })
        .catch(reject);
    });
  channel.addEventListener("message", () => {
    if (!release) return;
    void letGo().finally(() => {
      release?.();
      release = undefined;
    });
  });
  return {
    ours: await hold({ ifAvailable: true }),
    take: async () => {
      channel.postMessage("take");
      const answered = await hold({ signal: AbortSignal.timeout(LONGEST_WAIT_MS) }).catch(() => false);
      // A tab that is frozen cannot answer, and cannot write either.
      if (!answered) await hold({ steal: true });
    },
  };
}
