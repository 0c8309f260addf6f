import type { Hour } from "../quantity";
import { outside } from "../range";
import { fail, ok, type Result } from "../result";
import type { BatteryType } from "./types";

/** How a type takes charge. */
export interface Acceptance {
  /** Charge put in for each charge gained [1]; what is above 1 is lost in gas and heat. */
  readonly factor: number;
  /** Largest current for each ampere-hour still missing [1/h]: the ampere-hour law where it is 1. */
  readonly perMissing: number;
}

/** Lead-acid by the ampere-hour law; the factors of sealed types and lithium are common practice. */
export const ACCEPTANCE: Readonly<Record<BatteryType, Acceptance>> = {
  flooded: { factor: 1.15, perMissing: 1 },
  calcium: { factor: 1.15, perMissing: 1 },
  agm: { factor: 1.05, perMissing: 1 },
  gel: { factor: 1.05, perMissing: 1 },
  lithium: { factor: 1.01, perMissing: 5 },
};

/** The last hundredth is never reached by a taper: charged means 99 %. */
const CHARGED = 0.99;

/**
 * Time to charge: the charger's current first, then what the battery still accepts, which falls
 * with the charge that is missing.
 *
 * @param capacity - Capacity [Ah], above 0
 * @param from - State of charge at the start [1], 0 to 1
 * @param to - State of charge wanted [1], above `from` up to 1; 1 is taken as 99 %
 * @param amps - Current of the charger [A], above 0
 * @param how - Acceptance of the battery's type
 * @returns Time [h]; `outside-range`, or `refused` where `to` is not above `from`
 * @source woodbridge1935 current never above the ampere-hours still missing
 */
export function chargeTime(capacity: number, from: number, to: number, amps: number, how: Acceptance): Result<Hour> {
  const range =
    outside("capacity", capacity, 0.1, 10000, "Ah") ??
    outside("state of charge", from, 0, 1, "") ??
    outside("state of charge wanted", to, 0, 1, "") ??
    outside("charging current", amps, 0.01, 1000, "A");
  if (range) return range;
  if (!(to > from)) {
    return fail({
      code: "refused",
      what: "state of charge wanted",
      why: "it is not above the state of charge at the start",
      instead: "enter the higher one second",
    });
  }
  const missingAtStart = capacity * (1 - from);
  const missingAtEnd = capacity * (1 - Math.min(to, CHARGED));
  if (missingAtStart <= missingAtEnd) return ok(0 as Hour);
  const taperFrom = amps / how.perMissing;
  const steady = Math.max(0, missingAtStart - Math.max(taperFrom, missingAtEnd)) / amps;
  const taper =
    missingAtEnd < taperFrom ? Math.log(Math.min(missingAtStart, taperFrom) / missingAtEnd) / how.perMissing : 0;
  return ok((how.factor * (steady + taper)) as Hour);
}
