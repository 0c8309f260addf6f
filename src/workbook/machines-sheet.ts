import { entryOf, isReading } from "../core/readings/catalogue";
import type { Job } from "../core/readings/types";
import { plainName, type ListKind, type ListSheet } from "./list-sheet";

/** The list of what plates and manuals say: one row for each machine, no readings. */

const MACHINE = "machine-name";
const ENOUGH_DATA = 4;

export const isMachineList: ListKind = (ids) => {
  const entries = [...ids].map(entryOf);
  return (
    ids.has(MACHINE) &&
    entries.filter((entry) => entry?.stage === "machine").length >= ENOUGH_DATA &&
    !entries.some((entry) => entry !== undefined && isReading(entry))
  );
};

/** Data of one machine; none where the list does not hold it. */
export function machineData(list: ListSheet | undefined, machine: string): Job {
  const wanted = plainName(machine);
  const row = list?.rows.find(({ typed }) => plainName(String(typed.get(MACHINE) ?? "")) === wanted);
  return row && wanted !== "" ? row.job : new Map();
}
