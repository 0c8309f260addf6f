import { isoDate } from "../../core/fleet/dates";
import type { RowResult } from "./audit-chunk";

export const STATES = ["faulty", "suspect", "unproven", "serviceable", "not read", "not understood"] as const;
const WORST = 10;
/** Work is due for what is proven or suspect, and for what will be flat within this time [d]. */
const DUE_DAYS = 14;

export interface Ordered extends RowResult {
  readonly order: number;
}

/** What the first page of an audit shows, gathered row by row in bounded memory. */
export class Summary {
  readonly counts = new Map<string, number>(STATES.map((state) => [state, 0]));
  /** Rows a month that were proven or suspect, of all rows with a date. */
  readonly months = new Map<string, { visits: number; troubled: number }>();
  worst: Ordered[] = [];
  rows = 0;

  add(row: Ordered): void {
    this.rows += 1;
    this.counts.set(row.state, (this.counts.get(row.state) ?? 0) + 1);
    if (row.day !== null) {
      const month = isoDate(row.day).slice(0, 7);
      const seen = this.months.get(month) ?? { visits: 0, troubled: 0 };
      seen.visits += 1;
      if (isTroubled(row)) seen.troubled += 1;
      this.months.set(month, seen);
    }
    if (row.order <= WORST) this.worst.push(row);
  }

  finish(): void {
    this.worst.sort((a, b) => a.order - b.order);
  }

  monthRows(): readonly (readonly [month: string, visits: number, troubledShare: number])[] {
    return [...this.months]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([month, { visits, troubled }]) => [month, visits, troubled / visits]);
  }
}

export function isTroubled(row: RowResult): boolean {
  return row.state === "faulty" || row.state === "suspect";
}

export function isDue(row: RowResult): boolean {
  return isTroubled(row) || (row.days !== null && row.days <= DUE_DAYS);
}
