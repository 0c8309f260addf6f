import { readFileSync } from "node:fs";
import { join } from "node:path";
import { timeStepped } from "../../../src/core/circuit/steady-state";
import type { ChargingSystem, Conditions, OperatingPoint } from "../../../src/core/circuit/types";
import type { Measure, RunWindow } from "../../../src/tools/ngspice-netlist";

/** Operating points of invented machines as ngspice solved them; how they were made stands in the file. */
export interface StoredPoint {
  /** Kind of machine, kind of regulator, fault. */
  readonly what: string;
  readonly system: ChargingSystem;
  readonly at: Conditions;
  readonly startAmps: number;
  readonly found: Readonly<Record<Measure, number>>;
}

interface Stored {
  readonly simulator: string;
  readonly window: RunWindow;
  readonly points: readonly StoredPoint[];
}

export function storedPoints(): Stored {
  return JSON.parse(readFileSync(join(__dirname, "../../circuit-data/points.json"), "utf8")) as Stored;
}

export interface Compared {
  readonly fault: string;
  /** `regulating` where either side's regulator switches; `shorted battery` where a latched shunt and a shorted device empty it. */
  readonly kind: "unregulated" | "regulating" | "shorted battery";
  readonly volts: number;
  readonly amps: number;
  /** Error of the rectifier current as a share of it. */
  readonly share: number;
  readonly ours: OperatingPoint;
}

/** Our answer against the simulator's; a point that does not converge throws. */
export function compared({ what, system, at, found }: StoredPoint): Compared {
  const point = timeStepped(system, at, false);
  if (!point.ok) throw new Error(`${what}: ${point.fault.code}`);
  const ours = point.value;
  const steers = system.regulator.kind !== "none" && system.regulator.stuck.some((stuck) => stuck === null);
  // The simulator's comparator reads 0.001 at rest: the divider of its off-resistance.
  const working = steers && (found.duty > 0.0015 || ours.regulatorDuty > 0);
  const amps = Math.abs(ours.rectifierAmps - found.irect);
  return {
    fault: what.split(", ").at(-1)!,
    kind: found.irect < -10 ? "shorted battery" : working ? "regulating" : "unregulated",
    volts: Math.abs(ours.batteryVolts - found.vbat),
    amps,
    share: amps / Math.max(Math.abs(found.irect), 1e-9),
    ours,
  };
}

export const mean = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(values.length, 1);
