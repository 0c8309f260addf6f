import type { FleetVisit, Hear, MachineVisits, Notice } from "./types";
import { isoDate } from "../dates";
import type { LoggedMachine, VisitLog } from "./visit-log";

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

/**
 * Rows of different machines that agree in day and in every reading: one visit entered under two
 * names. The first of each is found again by a number made of its readings, eight bytes a visit.
 */
export class CopiedRows {
  /** Place in the log and one more, at the number of its readings or in the next free place. */
  private readonly firsts: Uint32Array;

  constructor(
    private readonly log: VisitLog,
    private readonly columns: Columns,
    private readonly place: Place,
  ) {
    this.firsts = new Uint32Array(2 ** Math.ceil(Math.log2(Math.max(2, 2 * log.size))));
  }

  look({ machine, visits, places }: LoggedMachine, hear: Hear): void {
    visits.forEach((visit, i) => {
      if (visit.day === undefined || visit.values.filter((v) => !Number.isNaN(v)).length < LEAST_ALIKE) return;
      const first = this.firstLike(visit, places[i]!);
      if (first === undefined || this.log.machineAt(first) === machine) return;
      hear({
        ...at(visit, machine, this.columns("machine-name", visit)),
        kind: "duplicate machine",
        what: `day and every reading are those of ${this.log.machineAt(first)} in ${this.place(this.log.at(first))}: one visit under two names; both rows stand.`,
      });
    });
  }

  /** The visit that was looked at before with this day and these readings; where there is none, this is the first. */
  private firstLike(visit: FleetVisit, own: number): number | undefined {
    const { firsts, log } = this;
    const mask = firsts.length - 1;
    for (let slot = numberOf([visit.day!, ...visit.values]) & mask; ; slot = (slot + 1) & mask) {
      if (firsts[slot] === 0) {
        firsts[slot] = own + 1;
        return undefined;
      }
      const first = log.at(firsts[slot]! - 1);
      if (first.day === visit.day && sameReadings(first, visit)) return firsts[slot]! - 1;
    }
  }
}

/** A number that seldom is the same for other values. */
function numberOf(values: readonly number[]): number {
  const bits = new Uint32Array(Float64Array.from(values).buffer);
  let hash = 0;
  for (const word of bits) {
    hash = Math.imul(hash ^ word, 0x9e3779b1);
    hash ^= hash >>> 15;
  }
  return hash;
}

function sameReadings(a: FleetVisit, b: FleetVisit): boolean {
  return a.values.every((value, i) => Object.is(value, b.values[i]));
}

export function at(visit: FleetVisit, machine: string, column: string) {
  return { file: visit.file, row: visit.row, column, machine };
}
