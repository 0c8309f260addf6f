import { CHECKS } from "../readings/checks";

/**
 * Checks that share a set-up: when one was done the next costs this much less [min]. To reach the stator plug, covers
 * off, takes as long as a reading there; the unit's plugs are parted once; the engine is warm, with meter and tachometer on.
 */
const SET_UPS: readonly { readonly checks: readonly string[]; readonly saves: number }[] = [
  { checks: ["winding-ohms", "winding-to-ground", "no-load-ac", "loaded-ac", "phase-drops", "insulation"], saves: 4 },
  { checks: ["diode-check", "output-short", "case-leakage"], saves: 3 },
  { checks: ["running-idle", "running-test"], saves: 3 },
];

const MINUTES = new Map(CHECKS.map((c) => [c.id, c.minutes]));

/** Working minutes of a check, less what is already set up. */
export function minutesOf(check: string, taken: readonly string[]): number {
  let minutes = MINUTES.get(check)!;
  for (const { checks, saves } of SET_UPS)
    if (checks.includes(check) && checks.some((other) => other !== check && taken.includes(other))) minutes -= saves;
  return Math.max(1, minutes);
}
