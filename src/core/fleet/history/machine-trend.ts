import { restedVoltage } from "../../battery/state-of-charge";
import { BATTERY_TYPES } from "../../battery/types";
import { STARTS_DOWN_TO } from "../days-until-flat";
import { trend, type Trend } from "../trend";
import { valueOf, type FleetVisit, type Followed, type MachineVisits } from "./types";

export interface MachineTrend {
  readonly machine: string;
  readonly reading: Followed;
  /** Worksheet day from which the visits count. */
  readonly since: number;
  /** True where earlier visits belong to another battery or level and were left out. */
  readonly anew: boolean;
  readonly limit: number | undefined;
  readonly trend: Trend;
}

/** What fades in a battery. */
const FADING = ["cranking-voltage", "rested-voltage"] as const;
/** Cranking voltage by common practice, 12 V battery [V]. */
const CRANKS_FROM = 9.6;
const LEAST_VISITS = 4;

/** Trends of what fades, each from the last replaced battery or new level on. */
export function trendsOf(
  { machine, visits }: MachineVisits,
  startsAnew: ReadonlyMap<Followed, FleetVisit>,
): readonly MachineTrend[] {
  return FADING.flatMap((reading) => {
    const read = visits.filter((visit) => visit.day !== undefined && !Number.isNaN(valueOf(visit, reading)));
    const start = startsAnew.get(reading)?.day ?? -Infinity;
    const counted = read.filter((visit) => visit.day! >= start);
    if (counted.length < LEAST_VISITS) return [];
    const limit = limitOf(reading, counted.at(-1)!);
    const warmth = counted.map((visit) => valueOf(visit, "battery-temperature"));
    const withWarmth = warmth.every((t) => !Number.isNaN(t));
    const found = trend(
      counted.map((visit, i) => ({
        day: visit.day!,
        value: valueOf(visit, reading),
        ...(withWarmth ? { temperature: warmth[i]! } : {}),
      })),
      limit,
    );
    if (!found.ok) return [];
    const anew = counted.length < read.length;
    return [{ machine, reading, since: counted[0]!.day!, anew, limit, trend: found.value }];
  });
}

/** A 6 V battery is known by its own readings: none of a 12 V one lies there for visits on end. */
function limitOf(reading: Followed, last: FleetVisit): number | undefined {
  const nominal = valueOf(last, "rested-voltage") < 7.5 || valueOf(last, "test-voltage") < 8.5 ? 6 : 12;
  if (reading === "cranking-voltage") return (CRANKS_FROM * nominal) / 12;
  const word = last.battery.split(", ")[0]!.toLowerCase();
  const type = BATTERY_TYPES.find((t) => t === word);
  if (type === undefined) return undefined;
  const rested = restedVoltage(STARTS_DOWN_TO, type, nominal);
  return rested.ok ? rested.value : undefined;
}
