import { isoDate } from "../dates";
import type { MeterChange } from "./changed-meter";
import { at, type Columns } from "./duplicate-rows";
import { findSteps, type Step } from "./step";
import { valueOf, type FleetVisit, type Followed, type MachineVisits, type Notice } from "./types";

/** A new level of one reading, with what it is taken for. */
export interface NewLevel {
  readonly reading: Followed;
  readonly visit: FleetVisit;
  readonly size: number;
  readonly score: number;
}

/** Least step of a reading that is worth a word, and the noise that it has at least. */
const READINGS: readonly { reading: Followed; least: number; floor: number; label: string; unit: string }[] = [
  { reading: "cranking-voltage", least: 0.4, floor: 0.06, label: "Cranking voltage", unit: "V" },
  { reading: "load-test-voltage", least: 0.4, floor: 0.06, label: "Voltage at the end of the load test", unit: "V" },
  { reading: "rested-voltage", least: 0.25, floor: 0.04, label: "Rested voltage", unit: "V" },
  { reading: "test-voltage", least: 0.3, floor: 0.04, label: "Running voltage at test speed", unit: "V" },
  { reading: "key-off-draw", least: 10, floor: 2, label: "Key-off draw", unit: "mA" },
];
/** What shows a battery's own strength; the others rise with its charge alone. */
const STRENGTH: readonly Followed[] = ["cranking-voltage", "load-test-voltage"];
/** Where another battery is written, the clearest first. */
const BATTERY_COLUMNS = ["battery-serial", "battery-fitted", "battery-capacity", "battery-type", "battery-cca"];
/** Steps this near to each other have one cause [d]. */
const TOGETHER = 45;

export interface Levels {
  readonly notices: readonly Notice[];
  /** Visits from which a reading's trend starts anew, by reading. */
  readonly startsAnew: ReadonlyMap<Followed, FleetVisit>;
}

/**
 * Batteries replaced in between, and other lasting steps: a repair, a new fault. Another battery is
 * written (serial number, day it was fitted, type, capacity or cold cranking amps change), or shows: cranking and
 * load-test voltage step up.
 *
 * @param meters - Changed meters: what they changed is taken off before steps are looked for
 */
export function levelsOf(machine: MachineVisits, columns: Columns, meters: readonly MeterChange[]): Levels {
  const notices: Notice[] = [];
  const startsAnew = new Map<Followed, FleetVisit>();
  const restart = (reading: Followed, visit: FleetVisit) => {
    const before = startsAnew.get(reading);
    if (!before || before.day! < visit.day!) startsAnew.set(reading, visit);
  };
  const written = otherBatteries(machine, columns);
  notices.push(...written.notices);
  const replaced = [...written.visits];
  const levels = newLevels(machine, meters);
  const stronger = levels.filter(({ reading, size }) => STRENGTH.includes(reading) && size > 0);
  for (const level of stronger) {
    if (replaced.some((visit) => near(visit, level.visit))) continue;
    replaced.push(level.visit);
    notices.push({
      ...at(level.visit, machine.machine, columns(level.reading, level.visit)),
      kind: "battery replaced",
      what: `${sentence(level)}: as a replaced battery does; its trend starts anew here.`,
    });
  }
  for (const visit of replaced) for (const reading of [...STRENGTH, "rested-voltage" as const]) restart(reading, visit);
  for (const level of levels) {
    restart(level.reading, level.visit);
    if (stronger.includes(level)) continue;
    if (level.reading !== "key-off-draw" && level.size > 0 && replaced.some((visit) => near(visit, level.visit)))
      continue;
    notices.push({
      ...at(level.visit, machine.machine, columns(level.reading, level.visit)),
      kind: "step",
      what: `${sentence(level)}: as a repair, a charge or a new fault does; its trend starts anew here.`,
    });
  }
  return { notices, startsAnew };
}

function newLevels({ visits }: MachineVisits, meters: readonly MeterChange[]): readonly NewLevel[] {
  return READINGS.flatMap(({ reading, least, floor }) => {
    const read = visits.filter((visit) => visit.day !== undefined && !Number.isNaN(valueOf(visit, reading)));
    const values = read.map(
      (visit) => valueOf(visit, reading) / (reading === "key-off-draw" ? 1 : gainOn(visit.day!, meters)),
    );
    if (Math.max(...values) - Math.min(...values) < least) return [];
    const steps: readonly Step[] = findSteps(
      read.map((visit) => visit.day!),
      values,
      floor,
    );
    return steps
      .filter(({ size }) => Math.abs(size) >= least)
      .map(({ at: i, size, score }) => ({ reading, visit: read[i]!, size, score }));
  });
}

/** By how much the meter of that day reads more than the first one [1]. */
function gainOn(day: number, meters: readonly MeterChange[]): number {
  return meters.reduce((gain, change) => (day >= change.day ? gain * (1 + change.share) : gain), 1);
}

function sentence({ reading, visit, size }: NewLevel): string {
  const { label, unit } = READINGS.find((r) => r.reading === reading)!;
  const by = Number(Math.abs(size).toPrecision(2));
  return `${label} ${by} ${unit} ${size > 0 ? "higher" : "lower"} from ${isoDate(visit.day!)} on`;
}

function otherBatteries({ machine, visits }: MachineVisits, columns: Columns) {
  const runs: FleetVisit[][] = [];
  for (const visit of visits) {
    if (visit.battery === "" || visit.day === undefined) continue;
    const run = runs.at(-1);
    if (run && same(run.at(-1)!.battery, visit.battery)) run.push(visit);
    else runs.push([visit]);
  }
  // It must stay another one: a single odd row is a slip.
  const lasting = runs.filter((run) => run.length > 1);
  const changed = lasting.slice(1).flatMap((run, i) => {
    const [before, visit] = [lasting[i]!.at(-1)!, run[0]!];
    return same(before.battery, visit.battery) ? [] : [{ before, visit }];
  });
  return {
    visits: changed.map(({ visit }) => visit),
    notices: changed.map(({ before, visit }): Notice => {
      const column = BATTERY_COLUMNS.map((id) => columns(id, visit)).find(Boolean)!;
      return {
        ...at(visit, machine, column),
        kind: "battery replaced",
        what: `another battery is written from ${isoDate(visit.day!)} on (${visit.battery}; before: ${before.battery}); its trend starts anew here.`,
      };
    }),
  };
}

/** A detail that is left out once is no other battery. */
function same(a: string, b: string): boolean {
  const [x, y] = [a, b].map((text) => text.toLowerCase().split(", "));
  return x!.length === y!.length ? x!.join() === y!.join() : true;
}

function near(a: FleetVisit, b: FleetVisit): boolean {
  return Math.abs(a.day! - b.day!) <= TOGETHER;
}
