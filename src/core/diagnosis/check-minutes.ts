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

/**
 * What a check gains for each minute, with as many of those that it opens as make that more: they tell the less the
 * more of them were done, which is left out of account here.
 *
 * @param gain - Of the check itself [bit]
 * @param then - What each of the others gains [bit] and takes [min]
 */
export function rateOf(
  gain: number,
  minutes: number,
  then: readonly (readonly [gain: number, minutes: number])[],
): number {
  for (const [more, longer] of [...then].sort((a, b) => b[0] / b[1] - a[0] / a[1]))
    if (more * minutes > gain * longer) [gain, minutes] = [gain + more, minutes + longer];
  return gain / minutes;
}
