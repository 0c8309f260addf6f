import { unregulated, type Unregulated } from "./averaged";
import { averagedPoint } from "./averaged-point";
import { batteryAlone } from "./dc-side";
import { sensedVolts, steers, switchingLevel } from "./regulated-level";
import { timeStepped } from "./steady-state";
import type { ChargingSystem, Conditions, OperatingPoint } from "./types";
import { ok, type Result } from "../result";

export interface PointOptions {
  /** `best`: closed form where it holds, else time-stepped (the default). */
  readonly model?: "best" | "time-stepped";
  /** Whether the ripple's spectrum is wanted (default true). */
  readonly ripple?: boolean;
}

/** The operating point of a system that is known to be possible and whose emf is given. */
export function withoutField(
  system: ChargingSystem,
  at: Conditions,
  { model = "best", ripple = true }: PointOptions,
): Result<OperatingPoint> {
  if (at.rpm === 0 || system.alternator.emfPerKrpm * system.alternator.emfScale === 0) {
    return ok(averagedPoint(system, at, { ...batteryAlone(system, at), valid: true }));
  }
  if (model === "best") {
    const answer = unregulated(system, at);
    if (answer.valid && !regulatorWorks(system, at, answer)) return ok(averagedPoint(system, at, answer));
  }
  return timeStepped(system, at, ripple);
}

/** True where the regulator holds the output back, or nearly so: its switching level is within reach of the peaks. */
function regulatorWorks(system: ChargingSystem, at: Conditions, answer: Unregulated): boolean {
  return (
    steers(system.regulator) && sensedVolts(system, answer) > switchingLevel(system.regulator, at) - PEAK_MARGIN_VOLTS
  );
}

const PEAK_MARGIN_VOLTS = 0.15;
