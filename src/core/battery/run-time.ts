import type { Hour } from "../quantity";
import { outside } from "../range";
import { fail, ok, type Result } from "../result";
import { readTable, type Row } from "../table";

/** What is left of a lead-acid battery's capacity in the cold [1] against temperature [°C]. */
const CAPACITY_IN_THE_COLD: readonly Row[] = [
  [-160 / 9, 0.4],
  [0, 0.75],
  [80 / 3, 1],
];

/**
 * Share of the rated capacity that a lead-acid battery gives when cold.
 *
 * @param temperature - Battery temperature [°C], −18 to 60; from 80 °F on all of it
 * @source tm-10-6140-200-14 page 1-9: 75 % at 32 °F, 40 % at 0 °F
 */
export function capacityInTheCold(temperature: number): Result<number> {
  return outside("temperature", temperature, -18, 60, "°C") ?? ok(readTable(CAPACITY_IN_THE_COLD, temperature));
}

/**
 * How long a full battery feeds a steady load, by Peukert's rule: t = H·(C/(I·H))^k.
 *
 * @param capacity - Rated capacity [Ah], above 0
 * @param rateHours - Hours at which it is rated [h]: 20 for most starting batteries
 * @param amps - Load [A], above 0
 * @param exponent - Peukert's exponent k [1], 1 to 2; 1 is the ideal battery
 * @param temperature - Battery temperature [°C]; no correction where left out
 * @returns Time to empty [h]; `outside-range`
 * @source larminie-lowry section 2.12
 */
export function runTime(
  capacity: number,
  rateHours: number,
  amps: number,
  exponent: number,
  temperature?: number,
): Result<Hour> {
  const range =
    outside("capacity", capacity, 0.1, 10000, "Ah") ??
    outside("rate", rateHours, 0.1, 1000, "h") ??
    outside("load", amps, 0.0001, 10000, "A") ??
    outside("Peukert's exponent", exponent, 1, 2, "");
  if (range) return range;
  const share = temperature === undefined ? ok(1) : capacityInTheCold(temperature);
  if (!share.ok) return share;
  return ok((rateHours * ((capacity * share.value) / (amps * rateHours)) ** exponent) as Hour);
}

/**
 * Peukert's exponent from two discharges to the same end.
 *
 * @param capacity1 - Capacity at the first rate [Ah]
 * @param hours1 - First discharge time [h]
 * @param capacity2 - Capacity at the second rate [Ah]
 * @param hours2 - Second discharge time [h], different from the first
 * @returns k [1]; `refused` where both rates are the same
 */
export function peukertExponent(capacity1: number, hours1: number, capacity2: number, hours2: number): Result<number> {
  const currents = Math.log(capacity2 / hours2) - Math.log(capacity1 / hours1);
  if (!(Math.abs(currents) > 1e-9)) {
    return fail({
      code: "refused",
      what: "rates",
      why: "both discharges have the same current",
      instead: "give two different rates",
    });
  }
  return ok((Math.log(hours1) - Math.log(hours2)) / currents);
}
