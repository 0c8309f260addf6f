import type { Ohm } from "../quantity";
import { fail, ok, type Result } from "../result";

/**
 * Internal resistance from two loads: the fall in voltage over the rise in current.
 *
 * @param volts1 - Voltage at the first current [V]
 * @param amps1 - First current out of the battery [A]; 0 for the open circuit
 * @param volts2 - Voltage at the second current [V]
 * @param amps2 - Second current out of the battery [A]
 * @returns Resistance [Ω], 0 or more; `refused` where both currents are the same or the voltage
 *   rises with the load
 * @source common-practice definition R = ΔV/ΔI
 */
export function internalResistance(volts1: number, amps1: number, volts2: number, amps2: number): Result<Ohm> {
  const rise = amps2 - amps1;
  if (Math.abs(rise) < 1e-9) {
    return fail({
      code: "refused",
      what: "currents",
      why: "both are the same, so no resistance follows",
      instead: "read the voltage at two different currents",
    });
  }
  const ohms = (volts1 - volts2) / rise;
  if (ohms < 0) {
    return fail({
      code: "refused",
      what: "voltages",
      why: "the voltage rises with the load",
      instead: "enter currents out of the battery as positive and pair each with its own voltage",
    });
  }
  return ok(ohms as Ohm);
}
