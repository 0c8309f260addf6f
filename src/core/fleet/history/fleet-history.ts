import { isBlank, type Block, type Cell } from "../../cell";
import { quantityById } from "../../readings/catalogue";
import { isoDate, type DateOrder } from "../dates";
import { dateOrderOf } from "../table-shape";
import { fleetMeterChanges, machineMeterChange, type MeterChange } from "./changed-meter";
import { at, CopiedRows, duplicatesOf, type Columns, type Place } from "./duplicate-rows";
import { farDates } from "./far-dates";
import { trendsOf, type MachineTrend } from "./machine-trend";
import { VisitReader } from "./read-visits";
import { Renames } from "./renamed-machines";
import { levelsOf } from "./replaced-battery";
import { slippedUnits } from "./slipped-units";
import { storageOf } from "./storage";
import { FOLLOWED, type FleetVisit, type Followed, type Hear, type MachineVisits, type Notice } from "./types";
import { VisitLog } from "./visit-log";

export interface FleetHistory {
  /** What was recognised, by file and row. */
  readonly notices: readonly Notice[];
  readonly trends: readonly MachineTrend[];
}

/**
 * A fleet's tables as a history: rows are read one by one, in any number of files, then looked at as
 * series of visits. What is recognised is said and proposed; no row is changed or merged by it.
 */
export class FleetHistoryReader {
  private readonly log = new VisitLog();
  private readonly readers: VisitReader[] = [];
  private readonly files: string[] = [];

  /**
   * Begins a table; rows that follow are its own.
   *
   * @param dateOrder - How it writes dates that can be read in two ways, where its other dates tell
   */
  table(header: readonly Cell[], file = "", dateOrder?: DateOrder): void {
    this.readers.push(new VisitReader(header, this.files.length, dateOrder));
    this.files.push(file);
  }

  /** @param row - As a spreadsheet shows it, from 1 */
  row(cells: readonly Cell[], row: number): void {
    if (!cells.every(isBlank)) this.readers.at(-1)!.read(cells, row, this.log);
  }

  fileOf(notice: Notice): string {
    return this.files[notice.file]!;
  }

  /**
   * Looks at all that was read.
   *
   * @param hear - Is told what is recognised, in no order
   * @param follow - Is told the trends, machine by machine
   */
  finish(hear: Hear, follow: (trend: MachineTrend) => void): void {
    const label = (id: string) => FOLLOWED.find((f) => f === id) && quantityById(id).label;
    const columns: Columns = (id, { file }) => this.readers[file]!.headerOf(id) || (label(id) ?? "");
    const place: Place = ({ file, row }) =>
      this.files.length > 1 ? `row ${row} of ${this.files[file]}` : `row ${row}`;
    for (const reader of this.readers) reader.notices().forEach(hear);
    farDates(this.log, (file) => this.readers[file]!.headerOf("visit-date"), hear);
    slippedUnits(this.log, (file, reading) => this.readers[file]!.headerOf(reading), hear);

    const meters = meterChanges(this.log);
    for (const { change } of meters) {
      const i = this.log.firstFrom(change.day);
      hear(meterNotice(change, this.log.machineAt(i), this.log.at(i), columns));
    }
    const renames = new Renames(this.log);
    const copies = new CopiedRows(this.log, columns, place);
    for (const machine of this.log.byMachine()) {
      renames.look(machine);
      copies.look(machine, hear);
      duplicatesOf(machine, columns, place).forEach(hear);
      storageOf(machine, columns).forEach(hear);
      const changes = meters.filter(({ of }) => of(machine)).map(({ change }) => change);
      const own = changes.length === 0 ? machineMeterChange(machine) : undefined;
      const all = own ? [own] : changes;
      if (own) hear(meterNotice(own, machine.machine, firstFrom(machine.visits, own.day), columns));
      const levels = levelsOf(machine, columns, all);
      levels.notices.forEach(hear);
      trendsOf(machine, afterMeter(levels.startsAnew, machine, all)).forEach(follow);
    }
    renames.propose(columns, place, hear);
  }
}

/** A whole table at once, as a worksheet hands it over; rows count from the header, which is row 1. */
export function historyOfTable(block: Block): FleetHistory {
  const reader = new FleetHistoryReader();
  const [header = [], ...rows] = block;
  reader.table(header, "", dateOrderOf(header, rows));
  rows.forEach((cells, i) => reader.row(cells, i + 2));
  const notices: Notice[] = [];
  const trends: MachineTrend[] = [];
  reader.finish(
    (notice) => notices.push(notice),
    (trend) => trends.push(trend),
  );
  return { notices: notices.sort(byPlace), trends };
}

/** Order in which notices are read: by file, row and column. */
export function byPlace(a: Notice, b: Notice): number {
  return a.file - b.file || a.row - b.row || (a.column < b.column ? -1 : a.column > b.column ? 1 : 0);
}

interface SharedChange {
  readonly change: MeterChange;
  readonly of: (machine: MachineVisits) => boolean;
}

/** Changes that all machines show; each visit of a machine counts with all others, whoever read it. */
function meterChanges(log: VisitLog): readonly SharedChange[] {
  return fleetMeterChanges(firstOf(log.byMachine())).map((change) => ({
    change,
    of: ({ visits }) =>
      visits.some(({ day }) => day !== undefined && day < change.day) &&
      visits.some(({ day }) => day !== undefined && day >= change.day),
  }));
}

/** Enough machines to tell a change of all; a large fleet is not copied whole for it. */
function* firstOf(machines: Iterable<MachineVisits>): Generator<MachineVisits> {
  let given = 0;
  for (const machine of machines) {
    if (machine.visits.length < 4) continue;
    yield machine;
    if (++given >= ENOUGH_MACHINES) return;
  }
}
const ENOUGH_MACHINES = 2000;

function firstFrom(visits: readonly FleetVisit[], day: number): FleetVisit {
  return visits.find((visit) => visit.day !== undefined && visit.day >= day)!;
}

function meterNotice(change: MeterChange, machine: string, visit: FleetVisit, columns: Columns): Notice {
  const percent = Number((100 * Math.abs(change.share)).toPrecision(2));
  const whose = change.machines > 1 ? `on ${change.machines} machines` : "on this machine";
  return {
    ...at(visit, machine, columns(change.readings[0]!, visit)),
    kind: "changed meter",
    ...(change.machines > 1 ? { ofFleet: true } : {}),
    what: `from ${isoDate(change.day)} on all voltages ${whose} read ${percent} % ${change.share > 0 ? "higher" : "lower"}: as another meter does. Trends start anew there; hold both meters on one battery to tell which is right.`,
  };
}

function afterMeter(
  startsAnew: ReadonlyMap<Followed, FleetVisit>,
  { visits }: MachineVisits,
  changes: readonly MeterChange[],
): ReadonlyMap<Followed, FleetVisit> {
  const last = changes.at(-1);
  const visit = last && visits.find(({ day }) => day !== undefined && day >= last.day);
  if (!visit) return startsAnew;
  const all = new Map(startsAnew);
  for (const reading of FOLLOWED) {
    const before = all.get(reading);
    if (!before || before.day! < visit.day!) all.set(reading, visit);
  }
  return all;
}
