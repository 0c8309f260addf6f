import { selfDischarge } from "../battery/drain";
import { capacityInTheCold } from "../battery/run-time";
import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { checkSystem } from "./check-system";
import { batteryModelOf, systemFromMachine } from "./machine-from-job";
import { meanPoint } from "./mean-point";

/** One consumer: what it draws at 13.5 V while on [A], and the share of the ride for which it is on [1]. */
export interface Consumer {
  readonly amps: number;
  readonly duty: number;
}

/** A stretch of the ride. */
export interface Stretch {
  readonly rpm: number;
  readonly minutes: number;
}

export interface EnergyBudget {
  /** Mean load while riding, at 13.5 V [A]. */
  readonly loadAmps: number;
  /** Into the battery over the ride, start and night included [Ah]; negative where it is drained. */
  readonly netAmpHours: number;
  /** State of charge after ride and night [1]. */
  readonly chargeAfter: number;
  readonly startsTomorrow: "yes" | "no" | "unsure";
  readonly reason: string;
}

/** A short ride on a country road: some idling at its ends and its crossings. */
export const TYPICAL_RIDE: readonly Stretch[] = [
  { rpm: 1400, minutes: 6 },
  { rpm: 4500, minutes: 24 },
];
/** One start: a few seconds at half the cold cranking amps. */
const START_AMP_HOURS = 0.12;
/** What a battery must still hold to crank, of its capacity when warm. */
const CRANKS_FROM = 0.4;
const CRANKS_NOT_BELOW = 0.25;
const STEPS = 60;

/**
 * What a ride does to the battery: the machine at every stretch's speed, the loads with their duty,
 * acceptance that falls as the battery fills, one start, and a night of key-off draw and
 * self-discharge.
 *
 * @param job - Machine data and readings by catalogue id
 * @param consumers - Loads; the machine's own load where none is given
 * @param ride - Stretches of the ride; a typical short one where none is given
 * @returns The budget; `outside-range`, `refused`, `not-converged`
 * @source tm-10-6140-200-14 (capacity in the cold), common-practice (start, ride, limits of cranking)
 */
export function energyBudget(
  job: Job,
  consumers: readonly Consumer[],
  ride: readonly Stretch[] = TYPICAL_RIDE,
): Result<EnergyBudget> {
  for (const { amps, duty } of consumers) {
    if (!(amps >= 0 && amps <= 300))
      return fail({ code: "outside-range", what: "load", came: amps, min: 0, max: 300, unit: "A" });
    if (!(duty >= 0 && duty <= 1))
      return fail({ code: "outside-range", what: "duty", came: duty, min: 0, max: 1, unit: "" });
  }
  for (const { minutes } of ride) {
    if (!(minutes >= 0 && minutes <= 1440))
      return fail({ code: "outside-range", what: "minutes", came: minutes, min: 0, max: 1440, unit: "min" });
  }
  return andThen(systemFromMachine(job), (machine) => {
    const loadAmps =
      consumers.length > 0 ? consumers.reduce((sum, { amps, duty }) => sum + amps * duty, 0) : machine.at(0).loadAmps;
    const battery = batteryModelOf(job);
    const total = ride.reduce((sum, { minutes }) => sum + minutes, 0);
    let charge = Math.max(0, battery.charge - START_AMP_HOURS / battery.ah);
    let amphours = -START_AMP_HOURS;
    for (const { rpm, minutes } of ride) {
      const steps = Math.max(1, Math.round((STEPS * minutes) / Math.max(total, 1)));
      for (let k = 0; k < steps; k++) {
        const system = { ...machine.system, battery: battery.charged(charge) };
        const at = machine.at(rpm, loadAmps);
        const checked = checkSystem(system, at);
        if (!checked.ok) return checked;
        const point = meanPoint(system, at);
        if (!point.ok) return point;
        // A full battery takes no more; what flows then is lost in gas.
        const gained = Math.min((point.value.batteryAmps * minutes) / 60 / steps, (1 - charge) * battery.ah);
        amphours += gained;
        charge = Math.max(0, Math.min(1, charge + gained / battery.ah));
      }
    }
    const temperature = numberIn(job, "battery-temperature") ?? 20;
    const own = selfDischarge(battery.type, Math.max(-40, Math.min(60, temperature)));
    if (!own.ok) return own;
    const night = ((numberIn(job, "key-off-draw") ?? 0) / 1000) * 24 + own.value * battery.ah;
    const chargeAfter = Math.max(0, charge - night / battery.ah);
    const cold = capacityInTheCold(Math.max(-18, Math.min(60, temperature)));
    if (!cold.ok) return cold;
    const usable = chargeAfter * cold.value;
    const startsTomorrow = usable >= CRANKS_FROM ? "yes" : usable < CRANKS_NOT_BELOW ? "no" : "unsure";
    return ok({
      loadAmps,
      netAmpHours: amphours - night,
      chargeAfter,
      startsTomorrow,
      reason: `${percent(battery.charge)} before, ${percent(chargeAfter)} after the ride and a night; at ${Math.round(temperature)} °C that cranks like ${percent(usable)} of the capacity, and ${percent(CRANKS_FROM)} is wanted`,
    });
  });
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
