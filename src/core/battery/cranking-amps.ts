import type { Ampere } from "../quantity";
import { fail, ok, type Result } from "../result";

/** How each standard defines a cranking current: what a new, full battery must hold, and how long. */
export const CRANKING_STANDARDS = {
  SAE: "30 s at −18 °C, at least 7.2 V",
  EN: "10 s at −18 °C, at least 7.5 V, then to 6.0 V after 90 s or 150 s",
  DIN: "30 s at −18 °C, at least 9.0 V, then to 6.0 V after 150 s",
  IEC: "60 s at −18 °C, at least 8.4 V",
} as const;
export type CrankingStandard = keyof typeof CRANKING_STANDARDS;

/**
 * Cold cranking amps of one standard as those of another. They are different tests of the same
 * battery and no published rule leads from one to the other, so only the same standard is answered.
 *
 * @param amps - Rating [A], above 0
 * @param from - Standard of the rating
 * @param to - Standard wanted
 * @returns The rating itself where both are the same [A]; else `refused`
 * @source common-practice SAE J537, EN 50342-1 as quoted; DIN and IEC from memory
 */
export function asCrankingStandard(amps: number, from: CrankingStandard, to: CrankingStandard): Result<Ampere> {
  if (from === to) return ok(amps as Ampere);
  return fail({
    code: "refused",
    what: "cold cranking amps",
    why: `${amps} A ${from} (${CRANKING_STANDARDS[from]}) cannot be turned into ${to} (${CRANKING_STANDARDS[to]})`,
    instead: `enter the ${to} rating from the battery's label or data sheet`,
  });
}
