import { timeStepped } from "../../core/circuit/steady-state";
import type { ChargingSystem, Conditions, OperatingPoint } from "../../core/circuit/types";

/** The circuit solved in time; `undefined` where it found no steady state (the job is drawn again). */
export function operatingPoint(system: ChargingSystem, at: Conditions): OperatingPoint | undefined {
  const solved = timeStepped(system, at, false);
  return solved.ok ? solved.value : undefined;
}
