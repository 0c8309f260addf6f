import { checkSystem } from "./check-system";
import { fieldExcited } from "./field-excited";
import { withoutField, type PointOptions } from "./given-emf";
import type { ChargingSystem, Conditions, OperatingPoint } from "./types";
import type { Result } from "../result";

/**
 * What a charging system does in steady running: volts, amps, AC, ripple, drops and heat.
 *
 * @param system - The circuit with the state of every part
 * @param at - Engine speed [rpm] 0 to 20000, load [A] 0 to 300, temperatures [°C]
 * @returns The operating point; `outside-range` for impossible data, `not-converged` where no
 *   solution was found (then no number is given)
 * @source caliskan2003 (closed form), time stepping checked against a circuit simulator
 */
export function operatingPoint(
  system: ChargingSystem,
  at: Conditions,
  options: PointOptions = {},
): Result<OperatingPoint> {
  const checked = checkSystem(system, at);
  if (!checked.ok) return checked;
  return system.alternator.kind === "field-excited"
    ? fieldExcited(system, at, options)
    : withoutField(system, at, options);
}
