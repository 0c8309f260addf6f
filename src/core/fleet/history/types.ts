/** Readings whose run over the visits is looked at, in the order in which a visit holds them. */
export const FOLLOWED = [
  "rested-voltage",
  "cranking-voltage",
  "load-test-voltage",
  "idle-voltage",
  "test-voltage",
  "key-off-draw",
  "battery-temperature",
] as const;
export type Followed = (typeof FOLLOWED)[number];

/** Voltages that one meter reads: they step together when the meter is another one. */
export const METER_VOLTAGES = [
  "rested-voltage",
  "cranking-voltage",
  "load-test-voltage",
  "idle-voltage",
  "test-voltage",
] as const satisfies readonly Followed[];

/** One row of a fleet's tables, as far as its history goes. */
export interface FleetVisit {
  /** Which file, from 0; rows as a spreadsheet shows them, from 1. */
  readonly file: number;
  readonly row: number;
  /** Worksheet day; absent where the table has none that can be read. */
  readonly day?: number;
  readonly serial: string;
  /** Battery type, capacity, cold cranking amps, serial number and day fitted as written, `agm, 14 Ah, 200 A`; blank where not written. */
  readonly battery: string;
  /** In the order of `FOLLOWED`; NaN where not read. */
  readonly values: readonly number[];
}

/** All visits of one machine, oldest first. */
export interface MachineVisits {
  /** Name as first written. */
  readonly machine: string;
  readonly visits: readonly FleetVisit[];
}

export const NOTICE_KINDS = [
  "duplicate machine",
  "renamed machine",
  "mixed units",
  "changed meter",
  "storage",
  "battery replaced",
  "step",
  "date not read",
  "date far off",
] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** Something recognised in a fleet's tables: said by row and column, never acted on silently. */
export interface Notice {
  readonly file: number;
  readonly row: number;
  /** Header of the column that shows it, as it stands in the table. */
  readonly column: string;
  readonly machine: string;
  readonly kind: NoticeKind;
  readonly what: string;
  /** What the whole fleet shows, and not this row's machine alone. */
  readonly ofFleet?: true;
}

/** Hears notices one by one, in no order: of a large fleet nobody holds them all. */
export type Hear = (notice: Notice) => void;

/** The value of a followed reading at a visit; NaN where not read. */
export function valueOf(visit: FleetVisit, reading: Followed): number {
  return visit.values[FOLLOWED.indexOf(reading)]!;
}
