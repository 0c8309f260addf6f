import type { AuditRow } from "./audit";
import { parseDate, type DateOrder } from "./dates";

/** What an audit says of one row, as it is written to files and handed to databases. */
export interface RowAnswer {
  readonly machine: string;
  /** Worksheet day of the visit (1 is 1900-01-01); `null` where the table has no date. */
  readonly day: number | null;
  readonly part: string;
  readonly state: string;
  readonly chance: number | null;
  readonly nextCheck: string;
  readonly days: number | null;
  readonly sentence: string;
}

/** @param order - How the table writes dates that can be read in two ways, where its other dates tell */
export function rowAnswer(row: AuditRow, order?: DateOrder): RowAnswer {
  const { machine, date, part, state, chance, nextCheck, days, sentence } = row;
  return {
    machine,
    day: date === undefined ? null : dayOf(date, order),
    part,
    state,
    chance: chance ?? null,
    nextCheck,
    days: days ?? null,
    sentence,
  };
}

function dayOf(typed: string, order: DateOrder | undefined): number | null {
  const day = parseDate(/^\d+(?:\.\d+)?$/u.test(typed) ? Number(typed) : typed, "Date", order);
  return day.ok ? day.value : null;
}
