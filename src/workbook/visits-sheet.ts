import type { Cell } from "../core/cell";
import { entryOf, isReading } from "../core/readings/catalogue";
import { plainName, type ListKind, type ListRow, type ListSheet } from "./list-sheet";

/** The list of visits: one row for each time a machine was read. */

const MACHINE = "machine-name";
const DATE = "visit-date";
const ENOUGH_READINGS = 3;

export const isVisitList: ListKind = (ids) =>
  ids.has(MACHINE) &&
  ids.has(DATE) &&
  [...ids].filter((id) => {
    const entry = entryOf(id);
    return entry !== undefined && isReading(entry);
  }).length >= ENOUGH_READINGS;

/** A visit's day as `2026-11-25`, from text or from a sheet's day number; what cannot be read stays as it is. */
export function dayOf(cell: Cell): string {
  if (typeof cell !== "number") return String(cell ?? "").trim();
  // Day 25569 of a sheet is 1970-01-01.
  const milliseconds = Math.round((cell - 25_569) * 86_400_000);
  return Number.isFinite(milliseconds) && Math.abs(milliseconds) < 8e15
    ? new Date(milliseconds).toISOString().slice(0, 10)
    : String(cell);
}

/** A day `2026-11-25` as a sheet's day number. */
export function dayNumber(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
}

/** Visits of one machine, latest first; rows without a date come last. */
export function visitsOf(list: ListSheet | undefined, machine: string): readonly ListRow[] {
  const wanted = plainName(machine);
  if (wanted === "") return [];
  const day = (row: ListRow) => dayOf(row.typed.get(DATE));
  return (list?.rows ?? [])
    .filter((row) => plainName(String(row.typed.get(MACHINE) ?? "")) === wanted)
    .sort((a, b) => day(b).localeCompare(day(a)) || b.row - a.row);
}

/** The row that holds this very visit already. */
export function sameVisit(list: ListSheet, machine: string, day: string): ListRow | undefined {
  return visitsOf(list, machine).find((row) => dayOf(row.typed.get(DATE)) === day);
}
