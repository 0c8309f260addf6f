import { operatingPoint } from "../../../src/core/circuit/operating-point";
import type { ChargingSystem, Conditions, OperatingPoint } from "../../../src/core/circuit/types";
import { machineWith, WARM } from "./example-system";

/** Same rows on every run. */
export const SEED = { seed: 20251125, numRuns: 40 };

/** The example machine with its regulator taken away. */
export const free = machineWith({ regulator: { kind: "none" } });

export function at(rpm: number, loadAmps = 12): Conditions {
  return { ...WARM, rpm, loadAmps };
}

/** The operating point, time-stepped unless asked otherwise; a fault throws. */
export function solved(
  system: ChargingSystem,
  conditions: Conditions,
  model: "best" | "time-stepped" = "time-stepped",
): OperatingPoint {
  const point = operatingPoint(system, conditions, { model });
  if (!point.ok) throw new Error(JSON.stringify(point.fault));
  return point.value;
}
