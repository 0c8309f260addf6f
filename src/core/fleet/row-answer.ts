import type { AuditRow } from "./audit";

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

export function rowAnswer({ machine, day, part, state, chance, nextCheck, days, sentence }: AuditRow): RowAnswer {
  return {
    machine,
    day: day ?? null,
    part,
    state,
    chance: chance ?? null,
    nextCheck,
    days: days ?? null,
    sentence,
  };
}
