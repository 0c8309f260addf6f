import type { Cell } from "../core/cell";
import { ok } from "../core/result";
import { number, optionalOrAbsent, reading, type Argument } from "./arguments";

/** Arguments that the charging functions share: one range and one unit each. */

/** Blank arrives as 0 from some hosts, and 0 is no speed and no load of a running engine. */
function zeroIsBlank(argument: Argument<number>): Argument<number | undefined> {
  return optionalOrAbsent({
    name: argument.name,
    read: (cell: Cell) => {
      const read = argument.read(cell);
      return read.ok && read.value === 0 ? ok(null) : read;
    },
  });
}

export const RPM = number("rpm", { unit: "rpm", min: 0, max: 20000 });
export const OPTIONAL_RPM = zeroIsBlank(RPM);
export const IDLE_RPM = zeroIsBlank(number("idleRpm", { unit: "rpm", min: 0, max: 20000 }));
export const TEST_RPM = zeroIsBlank(number("testRpm", { unit: "rpm", min: 0, max: 20000 }));
export const LOAD = zeroIsBlank(number("load", { unit: "A", min: 0, max: 300 }));
export const BATTERY_TEMPERATURE = optionalOrAbsent(number("temp", { unit: "°C", min: -60, max: 90 }));
const running = (name: string) => optionalOrAbsent(reading(name, { unit: "V", min: 0, max: 40 }));
export const REST = running("rest");
export const IDLE = running("idle");
export const TEST = running("test");
export const RIPPLE_READING = optionalOrAbsent(number("reading", { unit: "V AC", min: 0, max: 20 }));
