import { isoDate } from "../../core/fleet/dates";
import { show, type Meters } from "../simulation/meters";
import { Random } from "../simulation/random";
import type { DraftRow, Planted } from "./fleet-events";
import { MachineLife, TROUBLES, type Trouble, type TrueState } from "./machine-life";
import { mistype } from "./mistype";

export const COLUMNS = [
  "Date",
  "Machine",
  "Serial no",
  "Battery type",
  "Capacity (Ah)",
  "CCA",
  "Battery temp (°C)",
  "Rested voltage (V)",
  "Cranking volts",
  "Key-off draw (mA)",
  "Idle voltage",
  "Charging voltage",
  "Notes",
] as const;

export interface FleetPlan {
  readonly seed: number;
  /** Machines; as many as the rows ask for where not given. */
  readonly machines?: number;
  readonly years: number;
  /** Rows after which the record is cut off. */
  readonly rows?: number;
  /** So many machines are written down together, by date; of a larger fleet one such stretch after another. */
  readonly together?: number;
}

export interface DemoFleet {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly planted: readonly Planted[];
}

/** First day of the record: 1 March 2023. */
const FIRST_DAY = 44986;
const KINDS = ["Quad", "Trail quad", "Garden tractor", "Side-by-side", "Utility cart"] as const;

/**
 * A fleet of an invented yard: machines drawn from our own circuit, visited over the seasons,
 * repaired, stored, given new batteries, read by two meters, and typed in by people. The same seed
 * gives the same fleet.
 */
export function demoFleet(plan: FleetPlan): DemoFleet {
  const stretches = [...demoStretches(plan)];
  return {
    header: COLUMNS,
    rows: stretches.flatMap(({ rows }) => rows),
    planted: stretches.flatMap(({ planted }) => planted),
  };
}

/** The same, a stretch at a time: a fleet of any size in the memory of one. */
export function* demoStretches(plan: FleetPlan): Generator<DemoFleet> {
  const { seed, machines = Infinity, years, rows = Infinity, together = 500 } = plan;
  const random = new Random(seed);
  const last = FIRST_DAY + years * 365;
  const yard: Yard = {
    last,
    meterChange: FIRST_DAY + Math.round(years * 365 * random.between(0.45, 0.6)),
    meterShare: random.between(0.018, 0.03) * (random.chance(0.5) ? 1 : -1),
    closedFrom: FIRST_DAY + Math.round(years * 365 * random.between(0.2, 0.35)),
    lives: Array.from({ length: together }),
  };
  let before = 0;
  for (let first = 0; first < machines && before < rows; first += together) {
    const drafts: DraftRow[] = [];
    for (let i = first; i < Math.min(first + together, machines); i++) drafts.push(...machineRows(i, yard, random));
    drafts.sort((a, b) => a.day - b.day);
    copyUnderOtherNames(drafts, random);
    drafts.splice(rows - before);
    drafts.forEach((draft, i) => {
      for (const planted of draft.planted) planted.row = before + i + 2;
    });
    const planted = drafts.flatMap((draft) => draft.planted);
    const firstAfter = drafts.findIndex(({ day }) => day >= yard.meterChange);
    if (first === 0 && firstAfter >= 0)
      planted.push({ kind: "changed meter", machine: "", row: firstAfter + 2, day: yard.meterChange });
    yield { header: COLUMNS, rows: drafts.map(({ cells }) => cells), planted };
    before += drafts.length;
  }
}

interface Yard {
  readonly last: number;
  readonly meterChange: number;
  readonly meterShare: number;
  /** Six weeks in which nobody was in the yard. */
  readonly closedFrom: number;
  /** Circuits that are solved: later machines are of the same make as an earlier one. */
  readonly lives: (MachineLife | undefined)[];
}
const CLOSED_DAYS = 42;

function machineRows(i: number, yard: Yard, random: Random): DraftRow[] {
  const life = (yard.lives[i % yard.lives.length] ??= new MachineLife(random));
  const kind = random.pick(KINDS);
  const name = `${kind} ${i + 1}`;
  const serial = `CW${1000 + i * 37 + random.integer(0, 30)}`;
  // A fleet is visited month by month; some machines stand through the winter.
  const winters = random.chance(0.3);
  const renamedOn = random.chance(0.06) ? random.integer(FIRST_DAY + 300, yard.last - 300) : undefined;
  const days = visitDays(yard, winters, random);
  const troubles = troublesOf(days, random);
  const cells = new BatteryCells(life, random);
  const rows: DraftRow[] = [];
  let before: number | undefined;
  days.forEach((day, v) => {
    const planted: Planted[] = [];
    const standing = before === undefined ? 0 : day - before;
    const renamed = renamedOn !== undefined && day >= renamedOn;
    const now = renamed ? `${kind} N-${i + 1}` : name;
    const note = (what: Planted["kind"]) => planted.push({ kind: what, machine: now, row: 0, day });
    if (renamed && before !== undefined && before < renamedOn) note("renamed machine");
    if (standing >= 85) note("storage");
    const trouble = troubles.find(({ from, repaired }) => v >= from && v < repaired);
    if (trouble) planted.push({ kind: "fault", machine: now, row: 0, day, fault: trouble.fault });
    if (troubles.some(({ repaired }) => repaired === v)) note("repair");
    if (cells.ageTo(day, trouble === undefined, v, days.length)) note("battery replaced");
    const charge = trouble?.fault === "parasitic-drain" ? random.between(0.2, 0.6) : chargeAfter(standing, random);
    const state = life.stateOn(trouble?.fault ?? "healthy", cells.wear, charge, seasonCelsius(day, random));
    before = day;
    if (!state) return;
    const row = {
      day,
      cells: [isoDate(day), now, serial, ...cells.written(), ...read(state, day, yard, random), ""],
      planted,
    };
    rows.push(row, ...mistype(row, random));
  });
  return rows;
}

function visitDays(yard: Yard, winters: boolean, random: Random): number[] {
  const days: number[] = [];
  let day = FIRST_DAY + random.integer(0, 30);
  while (day < yard.last) {
    const closed = day >= yard.closedFrom && day < yard.closedFrom + CLOSED_DAYS;
    const season = ((day - FIRST_DAY) % 365) + 59;
    const winter = season > 305 || season < 75;
    if (!closed && !(winters && winter) && !random.chance(0.04)) days.push(day);
    day += random.integer(25, 35);
  }
  return days;
}

function troublesOf(days: readonly number[], random: Random): Trouble[] {
  if (!random.chance(0.35)) return [];
  const from = random.integer(6, Math.max(7, days.length - 8));
  return [{ fault: random.pick(TROUBLES), from, repaired: from + random.integer(2, 4) }];
}

/** Charge as it comes in: used machines come nearly full, stored ones have lost some percent a month. */
function chargeAfter(standing: number, random: Random): number {
  const lost = Math.max(0, standing - 45) / 30;
  return Math.max(0.3, random.between(0.82, 0.98) - lost * random.between(0.04, 0.07));
}

function seasonCelsius(day: number, random: Random): number {
  const summer = Math.cos((2 * Math.PI * (day - FIRST_DAY - 140)) / 365.25);
  return 14 + 11 * summer + random.normal(0, 3);
}

/** The battery in the machine: it wears, is replaced when it cranks badly, sometimes by another kind. */
class BatteryCells {
  wear = 1;
  private perDay: number;
  private since = FIRST_DAY;
  private capacity: number;
  private cca: number;
  private readonly type: string;

  constructor(
    life: MachineLife,
    private readonly random: Random,
  ) {
    this.type = life.machine.batteryType;
    this.capacity = life.machine.capacity;
    this.cca = life.machine.cca;
    this.perDay = random.logBetween(0.0008, 0.006);
    this.wear = random.between(1, 1.8);
  }

  /** @returns True where a new battery was fitted before this visit */
  ageTo(day: number, sound: boolean, v: number, visits: number): boolean {
    this.wear *= 1 + this.perDay * (day - this.since);
    this.since = day;
    // Near either end of the record nobody can tell a new battery from its readings.
    if (this.wear < 3.2 || !sound || v < 5 || v > visits - 5) return false;
    this.wear = this.random.between(0.95, 1.1);
    this.perDay = this.random.logBetween(0.0006, 0.003);
    if (this.random.chance(0.3)) {
      this.capacity += 2;
      this.cca += 20;
    }
    return true;
  }

  written(): readonly string[] {
    return [this.type, String(this.capacity), String(this.cca)];
  }
}

/** The yard's one meter of the day, as a person writes down what it shows. */
function read(state: TrueState, day: number, yard: Yard, random: Random): string[] {
  const gain = day >= yard.meterChange ? 1 + yard.meterShare : 1;
  const meters: Meters = {
    gain: { dc: gain, ac: 1, ohm: 1, diode: 1, clamp: 1, milliamp: 1 },
    ohmStep: 0.1,
    leadsOhms: 0.2,
  };
  const volts = (value: number) => show("dc", value, meters, random).toFixed(2);
  return [
    String(Math.round(state.celsius)),
    volts(state.rested + random.normal(0, 0.03)),
    volts(state.cranking),
    show("milliamp", state.draw * random.between(0.95, 1.05), meters, random).toFixed(1),
    volts(state.idle + random.normal(0, 0.04)),
    volts(state.test + random.normal(0, 0.03)),
  ];
}

/** A few visits that were entered under the name of another machine as well. */
function copyUnderOtherNames(drafts: DraftRow[], random: Random): void {
  const copies = Math.round(drafts.length / 500);
  for (let k = 0; k < copies; k++) {
    const i = random.integer(10, drafts.length - 10);
    const [from, other] = [drafts[i]!, drafts[i + random.integer(1, 9)]!];
    if (from.cells[1] === other.cells[1] || from.planted.some(({ kind }) => kind !== "fault")) continue;
    const cells = [...from.cells];
    cells[1] = other.cells[1]!;
    cells[2] = other.cells[2]!;
    drafts.splice(i + 1, 0, {
      day: from.day,
      cells,
      planted: [{ kind: "duplicate machine", machine: cells[1], row: 0, day: from.day }],
    });
  }
}
