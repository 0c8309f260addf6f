import { openDB, type DBSchema, type IDBPDatabase } from "idb";

/** The workbook as the browser keeps it between visits. */
export interface Kept {
  /** Grows by one at every write: a page that knows an older one must not write over a newer. */
  readonly revision: number;
  /** Shape of what is kept; a page that does not know it leaves it alone. */
  readonly shape: number;
  /** The name that a file made of it gets, without its ending. */
  readonly name: string;
  /** What the grid makes of itself. */
  readonly snapshot: unknown;
}

export const SHAPE = 1;

interface Store extends DBSchema {
  workbooks: { key: string; value: Kept };
}

const ONLY = "current";

/** Somebody else wrote after this page had read: nothing was written. */
export class ChangedElsewhere extends Error {}

/** The place in the browser where the one workbook is kept. */
export class WorkbookKeeper {
  private revision = 0;

  private constructor(private readonly store: IDBPDatabase<Store>) {}

  static async open(): Promise<WorkbookKeeper> {
    return new WorkbookKeeper(
      await openDB<Store>("chargewright", 1, { upgrade: (store) => void store.createObjectStore("workbooks") }),
    );
  }

  async read(): Promise<Kept | undefined> {
    const kept = await this.store.get("workbooks", ONLY);
    this.revision = kept?.revision ?? 0;
    return kept;
  }

  /** Writes in one transaction with the look at what is there. */
  async write(name: string, snapshot: unknown): Promise<void> {
    const change = this.store.transaction("workbooks", "readwrite");
    const known = await change.store.get(ONLY);
    if ((known?.revision ?? 0) !== this.revision) {
      await change.done;
      throw new ChangedElsewhere();
    }
    await change.store.put({ revision: this.revision + 1, shape: SHAPE, name, snapshot }, ONLY);
    await change.done;
    this.revision++;
  }
}
