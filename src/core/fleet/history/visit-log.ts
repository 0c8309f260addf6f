import { GrowingColumn } from "../growing-column";
import { FOLLOWED, type FleetVisit, type MachineVisits } from "./types";

/** A row on its way into the log. */
export interface LoggedVisit extends FleetVisit {
  readonly machine: string;
  /** One bit for each followed reading that was typed as a bare number. */
  readonly bare: number;
}

/** All visits of one machine, and their places in the log. */
export interface LoggedMachine extends MachineVisits {
  readonly places: Uint32Array;
}

/**
 * The visits of a whole fleet in columns of plain numbers: some 60 bytes a row, so that a million
 * rows stay in memory.
 */
export class VisitLog {
  private readonly rows = new GrowingColumn(Uint32Array);
  private readonly files = new GrowingColumn(Uint16Array);
  private readonly machines = new GrowingColumn(Uint32Array);
  private readonly days = new GrowingColumn(Float64Array);
  private readonly serials = new GrowingColumn(Uint32Array);
  private readonly batteries = new GrowingColumn(Uint32Array);
  private readonly bares = new GrowingColumn(Uint8Array);
  private readonly values = new GrowingColumn(Float32Array);
  private readonly names = new Words((name) => name.toLowerCase());
  private readonly words = new Words((word) => word.toLowerCase());
  private grouped: Uint32Array | undefined;

  constructor() {
    this.words.placeOf("");
  }

  get size(): number {
    return this.rows.length;
  }

  add(visit: LoggedVisit): void {
    this.grouped = undefined;
    this.rows.push(visit.row);
    this.files.push(visit.file);
    this.machines.push(this.names.placeOf(visit.machine));
    this.days.push(visit.day ?? Number.NaN);
    this.serials.push(this.words.placeOf(visit.serial));
    this.batteries.push(this.words.placeOf(visit.battery));
    this.bares.push(visit.bare);
    for (const value of visit.values) this.values.push(value);
  }

  /** The visit logged as the `i`-th. */
  at(i: number): FleetVisit {
    const day = this.days.at(i);
    return {
      file: this.files.at(i),
      row: this.rows.at(i),
      ...(Number.isNaN(day) ? {} : { day }),
      serial: this.words.at(this.serials.at(i)),
      battery: this.words.at(this.batteries.at(i)),
      // Single precision holds seven digits, a meter shows four to five.
      values: FOLLOWED.map((_, f) => Number(this.values.at(i * FOLLOWED.length + f).toPrecision(6))),
    };
  }

  placeAt(i: number): Pick<FleetVisit, "file" | "row"> {
    return { file: this.files.at(i), row: this.rows.at(i) };
  }

  machineAt(i: number): string {
    return this.names.at(this.machines.at(i));
  }

  /** The same number for the same serial number, however it is spelled; 0 for none. */
  serialAt(i: number): number {
    return this.serials.at(i);
  }

  isBare(i: number, followed: number): boolean {
    return (this.bares.at(i) & (1 << followed)) !== 0;
  }

  dayAt(i: number): number {
    return this.days.at(i);
  }

  valueAt(i: number, followed: number): number {
    return this.values.at(i * FOLLOWED.length + followed);
  }

  /** The earliest visit on this day or after it; the one logged first of several. */
  firstFrom(day: number): number {
    let first = -1;
    for (let i = 0; i < this.size; i++) {
      if (this.days.at(i) >= day && (first < 0 || this.days.at(i) < this.days.at(first))) first = i;
    }
    return first;
  }

  /** Machine by machine, in the order in which they first come, visits oldest first; rows without a name are left out. */
  *byMachine(): Generator<LoggedMachine> {
    const order = this.order();
    for (let from = 0; from < order.length;) {
      const machine = this.machines.at(order[from]!);
      let to = from + 1;
      while (to < order.length && this.machines.at(order[to]!) === machine) to++;
      const name = this.names.at(machine);
      const places = order.subarray(from, to);
      if (name !== "") yield { machine: name, places, visits: Array.from(places, (i) => this.at(i)) };
      from = to;
    }
  }

  private order(): Uint32Array {
    if (this.grouped) return this.grouped;
    const order = Uint32Array.from({ length: this.size }, (_, i) => i);
    const day = (i: number) => {
      const d = this.days.at(i);
      return Number.isNaN(d) ? Infinity : d;
    };
    const byDay = (a: number, b: number) => (day(a) === day(b) ? 0 : day(a) - day(b));
    order.sort((a, b) => this.machines.at(a) - this.machines.at(b) || byDay(a, b) || a - b);
    this.grouped = order;
    return order;
  }
}

/** Each word once; the first spelling stands. */
class Words {
  private readonly places = new Map<string, number>();
  private readonly spellings: string[] = [];

  constructor(private readonly key: (word: string) => string) {}

  placeOf(word: string): number {
    const key = this.key(word);
    let place = this.places.get(key);
    if (place === undefined) {
      place = this.spellings.length;
      this.places.set(key, place);
      this.spellings.push(word);
    }
    return place;
  }

  at(place: number): string {
    return this.spellings[place]!;
  }
}
