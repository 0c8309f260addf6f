import { overlaps, parseRange } from "../../../workbook/address";
import { WorkbookFault, type Area } from "../../../workbook/port";

/**
 * One step of a batch on its way: first it queues what must be known, then it may refuse, then it
 * queues its writes. After a failure somewhere in the batch it queues what must be known to undo,
 * and undoes, from whatever point it had reached; undoing twice does no harm.
 */
export interface Prepared {
  /** Cells that travel, for the size of a request. */
  readonly weight: number;
  /** Queues a second question that the first answer raised; `false` where there is none. */
  readonly lookCloser?: () => boolean;
  readonly refusal?: () => WorkbookFault | undefined;
  readonly carryOut: () => void;
  readonly lookBack?: () => void;
  readonly putBack?: () => void;
}

/** Cells that one request may carry: Excel on the web takes 5 MB at a time. */
export const MOST_CELLS = 30_000;

type Rectangle = Omit<Area, "sheet">;

/** What the steps of one batch share: the sheets it makes, and what each sheet was asked once. */
export class Scope {
  readonly #fresh: ReadonlySet<string>;
  readonly #added = new Set<string>();
  readonly #merged = new Map<string, Excel.RangeAreas>();
  readonly #protection = new Map<string, Excel.WorksheetProtection>();

  /** What earlier steps of this batch will have put there. */
  readonly planned = {
    merges: [] as Area[],
    tables: [] as { at: Area; name: string }[],
    names: new Map<string, Area>(),
  };

  constructor(
    readonly context: Excel.RequestContext,
    newSheets: readonly string[],
  ) {
    this.#fresh = new Set(newSheets.map((name) => name.toUpperCase()));
  }

  /** A sheet that this batch adds is not there to be read, and goes as a whole when undone. */
  isNew(sheet: string): boolean {
    return this.#fresh.has(sheet.toUpperCase());
  }

  /** True from the second time on that this batch adds a sheet of this name. */
  addsTwice(sheet: string): boolean {
    const key = sheet.toUpperCase();
    if (this.#added.has(key)) return true;
    this.#added.add(key);
    return false;
  }

  sheet(name: string): Excel.Worksheet {
    return this.context.workbook.worksheets.getItem(name);
  }

  range(at: Area): Excel.Range {
    return this.sheet(at.sheet).getRangeByIndexes(at.row, at.column, at.rows, at.columns);
  }

  /** Queues the question for merged cells; `mergedIn` answers after the next sync. */
  askMerged(sheet: string): void {
    if (this.#merged.has(sheet)) return;
    const merged = this.sheet(sheet).getRange().getMergedAreasOrNullObject();
    merged.load("address");
    this.#merged.set(sheet, merged);
  }

  mergedIn(at: Area): Rectangle[] {
    const merged = this.#merged.get(at.sheet);
    return !merged || merged.isNullObject ? [] : rectangles(merged.address).filter((one) => overlaps(one, at));
  }

  /** Queues the question for protection; `protectedFault` answers after the next sync. */
  askProtection(sheet: string): void {
    if (this.#protection.has(sheet)) return;
    const { protection } = this.sheet(sheet);
    protection.load("protected");
    this.#protection.set(sheet, protection);
  }

  protectedFault(sheet: string): WorkbookFault | undefined {
    if (!this.#protection.get(sheet)?.protected) return undefined;
    return new WorkbookFault(
      `The sheet "${sheet}" is protected. Take off the protection (Review tab, Unprotect Sheet) and try again.`,
      "protected",
    );
  }
}

export function sameSheet(a: string, b: string): boolean {
  return a.toUpperCase() === b.toUpperCase();
}

/** True where two areas share cells. */
export function meet(a: Area, b: Area): boolean {
  return sameSheet(a.sheet, b.sheet) && overlaps(a, b);
}

/** The rectangles of an address of several areas: `Job!A1:B2,'Old jobs'!D4`. */
export function rectangles(address: string): Rectangle[] {
  const areas = address.matchAll(/(?:^|,)\s*(?:'(?:[^']|'')*'!|[^'!,]*!)?([^,!']+)/gu);
  return [...areas].flatMap((match) => parseRange(match[1]!) ?? []);
}

/** An area cut into bands of rows that one request can carry. */
export function bands(at: Area, most: number): Area[] {
  const rows = Math.max(1, Math.floor(most / at.columns));
  return Array.from({ length: Math.ceil(at.rows / rows) }, (_, i) => ({
    ...at,
    row: at.row + i * rows,
    rows: Math.min(rows, at.rows - i * rows),
  }));
}
