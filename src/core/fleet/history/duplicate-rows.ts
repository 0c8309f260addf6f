import type { FleetVisit, MachineVisits, Notice } from "./types";
import { isoDate } from "../dates";

/** So many readings alike to the last digit are not chance. */
const LEAST_ALIKE = 4;

/** Where a row stands, in words. */
export type Place = (visit: FleetVisit) => string;

/** One machine twice on one day, or twice in a table without dates, or under two serial numbers. */
export function duplicatesOf({ machine, visits }: MachineVisits, columns: Columns, place: Place): readonly Notice[] {
  const notices: Notice[] = [];
  const dated = visits.some((visit) => visit.day !== undefined);
  for (let i = 1; i < visits.length; i++) {
    const [before, visit] = [visits[i - 1]!, visits[i]!];
    if (dated ? visit.day === undefined || visit.day !== before.day : false) continue;
    const alike = sameReadings(before, visit);
    const when = visit.day === undefined ? "" : ` on ${isoDate(visit.day)}`;
    notices.push({
      ...at(visit, machine, columns("machine-name", visit)),
      kind: "duplicate machine",
      what: `the same machine${when} as in ${place(before)}, with ${alike ? "the same readings: entered twice" : "other readings: two visits, two machines of one name, or a correction"}; both rows stand.`,
    });
  }
  return [...notices, ...twoSerials({ machine, visits }, columns, place)];
}

/** Column headers by catalogue id, for the file of a visit. */
export type Columns = (id: string, visit: FleetVisit) => string;

function twoSerials({ machine, visits }: MachineVisits, columns: Columns, place: Place): readonly Notice[] {
  const written = visits.filter((visit) => visit.serial !== "");
  const first = written[0];
  const seen = new Set([first?.serial.toLowerCase()]);
  return written.flatMap((visit) => {
    const serial = visit.serial.toLowerCase();
    if (seen.has(serial)) return [];
    seen.add(serial);
    return [
      {
        ...at(visit, machine, columns("machine-serial", visit)),
        kind: "duplicate machine" as const,
        what: `serial number ${visit.serial} under a name that has ${first!.serial} in ${place(first!)}: two machines of one name, or a slip; they were taken as one.`,
      },
    ];
  });
}

/** Rows of different machines that agree in day and in every reading: one visit entered under two names. */
export class CopiedRows {
  private readonly first = new Map<string, { machine: string; visit: FleetVisit }>();
  readonly notices: Notice[] = [];

  constructor(
    private readonly columns: Columns,
    private readonly place: Place,
  ) {}

  look({ machine, visits }: MachineVisits): void {
    for (const visit of visits) {
      if (visit.day === undefined || visit.values.filter((v) => !Number.isNaN(v)).length < LEAST_ALIKE) continue;
      const key = `${visit.day} ${visit.values.join(" ")}`;
      const before = this.first.get(key);
      if (!before) this.first.set(key, { machine, visit });
      else if (before.machine !== machine) {
        this.notices.push({
          ...at(visit, machine, this.columns("machine-name", visit)),
          kind: "duplicate machine",
          what: `day and every reading are those of ${before.machine} in ${this.place(before.visit)}: one visit under two names; both rows stand.`,
        });
      }
    }
  }
}

function sameReadings(a: FleetVisit, b: FleetVisit): boolean {
  return a.values.every((value, i) => Object.is(value, b.values[i]));
}

export function at(visit: FleetVisit, machine: string, column: string) {
  return { file: visit.file, row: visit.row, column, machine };
}
