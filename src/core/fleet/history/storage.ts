import { median } from "simple-statistics";
import { isoDate } from "../dates";
import { at, type Columns } from "./duplicate-rows";
import { valueOf, type FleetVisit, type MachineVisits, type Notice } from "./types";

/** No visit for so long, and so many times longer than the machine's usual interval [d]. */
const LEAST_DAYS = 60;
const TIMES_USUAL = 2.5;

/** Months without a visit: stored, or visits missing. A table cannot tell which, so both are said. */
export function storageOf({ machine, visits }: MachineVisits, columns: Columns): readonly Notice[] {
  const dated = visits.filter((visit) => visit.day !== undefined);
  const gaps = dated.slice(1).map((visit, i) => visit.day! - dated[i]!.day!);
  if (gaps.length < 2) return [];
  const usual = median(gaps);
  return gaps.flatMap((gap, i) => {
    if (gap < LEAST_DAYS || gap < TIMES_USUAL * usual) return [];
    const [before, after] = [dated[i]!, dated[i + 1]!];
    return [
      {
        ...at(after, machine, columns("visit-date", after)),
        kind: "storage" as const,
        what: `no visit for ${Math.round(gap)} days since ${isoDate(before.day!)} (usual: ${Math.round(usual)}): in storage, or visits are missing.${restedFell(before, after)}`,
      },
    ];
  });
}

function restedFell(before: FleetVisit, after: FleetVisit): string {
  const [then, now] = [valueOf(before, "rested-voltage"), valueOf(after, "rested-voltage")];
  return now < then ? ` Rested voltage ${then} V before, ${now} V after.` : "";
}
