import { drainDays } from "../battery/drain";
import { stateOfCharge } from "../battery/state-of-charge";
import { BATTERY_TYPES } from "../battery/types";
import { choiceIn, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";

/** Below this state of charge a battery is not counted on to start its engine (common practice) [1]. */
export const STARTS_DOWN_TO = 0.5;

/**
 * Days until a standing machine is not counted on to start: from the rested voltage, the key-off
 * draw and the battery's own self-discharge.
 *
 * @param job - Needs battery type, capacity, rested voltage and key-off draw
 * @returns Days, 0 where it is below already; `undefined` where a reading is missing: never guessed
 */
export function daysUntilFlat(job: Job): number | undefined {
  const volts = numberIn(job, "rested-voltage");
  const draw = numberIn(job, "key-off-draw");
  const capacity = numberIn(job, "battery-capacity");
  const word = choiceIn(job, "battery-type");
  const type = BATTERY_TYPES.find((t) => t === word);
  if (volts === undefined || type === undefined) return undefined;
  const nominal = numberIn(job, "battery-nominal") === 6 ? 6 : 12;
  const charge = stateOfCharge(volts, type, { nominal });
  if (!charge.ok) return undefined;
  if (charge.value <= STARTS_DOWN_TO) return 0;
  if (draw === undefined || capacity === undefined) return undefined;
  const days = drainDays(capacity, charge.value, STARTS_DOWN_TO, draw, type, numberIn(job, "battery-temperature"));
  return days.ok ? days.value : undefined;
}
