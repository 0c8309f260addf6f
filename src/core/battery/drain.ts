import type { Day } from "../quantity";
import { outside } from "../range";
import { fail, ok, type Result } from "../result";
import type { BatteryType } from "./types";

/**
 * Share of its capacity that a standing battery loses by itself in 30 days at 25 °C [1]. Flooded
 * lies between the Army's figure (0.001 of gravity a day) and the handbooks' 5 to 10 %.
 */
export const SELF_DISCHARGE: Readonly<Record<BatteryType, number>> = {
  flooded: 0.15,
  calcium: 0.03,
  agm: 0.02,
  gel: 0.02,
  lithium: 0.02,
};

/**
 * Self-discharge of a standing battery; it doubles with every 10 °C.
 *
 * @param type - Battery type
 * @param temperature - Battery temperature [°C], −40 to 60
 * @returns Share of the capacity lost a day [1/d]; `outside-range`
 * @source tm-9-6140-200-14 page 4-14 (gravity a day at 100, 80 and 50 °F); common-practice for sealed types
 */
export function selfDischarge(type: BatteryType, temperature = 25): Result<number> {
  const range = outside("temperature", temperature, -40, 60, "°C");
  return range ?? ok((SELF_DISCHARGE[type] / 30) * 2 ** ((temperature - 25) / 10));
}

/**
 * Days until a draw, and the battery's own self-discharge, have taken it from one state of charge
 * to another.
 *
 * @param capacity - Capacity [Ah], above 0
 * @param from - State of charge now [1]
 * @param to - State of charge at which it counts as flat [1], below `from`
 * @param milliamps - Key-off draw [mA], 0 or more
 * @param type - Battery type; without it the draw alone counts
 * @param temperature - Battery temperature [°C]; 25 where left out
 * @returns Days; `refused` where nothing drains it or `to` is not below `from`
 * @source common-practice ampere-hours over amperes; self-discharge as in `selfDischarge`
 */
export function drainDays(
  capacity: number,
  from: number,
  to: number,
  milliamps: number,
  type?: BatteryType,
  temperature?: number,
): Result<Day> {
  const range =
    outside("capacity", capacity, 0.1, 10000, "Ah") ??
    outside("state of charge", from, 0, 1, "") ??
    outside("state of charge when flat", to, 0, 1, "") ??
    outside("draw", milliamps, 0, 30000, "mA");
  if (range) return range;
  if (!(from > to)) {
    return fail({
      code: "refused",
      what: "state of charge when flat",
      why: "it is not below the state of charge now",
      instead: "enter the lower one second",
    });
  }
  const own = type === undefined ? ok(0) : selfDischarge(type, temperature);
  if (!own.ok) return own;
  const daily = (milliamps / 1000) * 24 + capacity * own.value;
  if (!(daily > 0)) {
    return fail({
      code: "refused",
      what: "draw",
      why: "nothing drains the battery",
      instead: "enter a draw above 0 mA or the battery type, which has a self-discharge",
    });
  }
  return ok(((capacity * (from - to)) / daily) as Day);
}
