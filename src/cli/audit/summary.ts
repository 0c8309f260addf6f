import { isoDate } from "../../core/fleet/dates";
import type { RowResult } from "./audit-chunk";

export const STATES = ["faulty", "suspect", "unproven", "serviceable", "not read", "not understood"] as const;
const WORST = 10;
/** Work is due for what is proven or suspect, and for what will be flat within this time [d]. */
const DUE_DAYS = 14;

export interface Ordered extends RowResult {
  readonly order: number;
}

/** A row with its place in the order of risk, and whether it is the latest visit of its machine. */
export interface Ranked {
  readonly row: Ordered;
  readonly latest: boolean;
}

/** What the first page of an audit shows, gathered row by row in bounded memory. */
export class Summary {
  /** Rows in each state, and machines by the state of their latest visit. */
  readonly counts = new Map<string, number>(STATES.map((state) => [state, 0]));
  readonly machineCounts = new Map<string, number>(STATES.map((state) => [state, 0]));
  /** Rows a month that were proven or suspect, of all rows with a date. */
  readonly months = new Map<string, { visits: number; troubled: number }>();
  /** Machines that are not in order, worst first, each by its latest visit. */
  worst: Ordered[] = [];
  rows = 0;
  machines = 0;

  add({ row, latest }: Ranked): void {
    this.rows += 1;
    this.counts.set(row.state, (this.counts.get(row.state) ?? 0) + 1);
    if (row.day !== null) {
      const month = isoDate(row.day).slice(0, 7);
      const seen = this.months.get(month) ?? { visits: 0, troubled: 0 };
      seen.visits += 1;
      if (isTroubled(row)) seen.troubled += 1;
      this.months.set(month, seen);
    }
    if (!latest) return;
    this.machines += 1;
    this.machineCounts.set(row.state, (this.machineCounts.get(row.state) ?? 0) + 1);
    if (row.state === "serviceable" || row.state === "not read") return;
    if (this.worst.length === WORST && row.order > this.worst[WORST - 1]!.order) return;
    this.worst.push(row);
    this.worst.sort((a, b) => a.order - b.order);
    this.worst.length = Math.min(this.worst.length, WORST);
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
