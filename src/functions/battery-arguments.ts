import { CRANKING_STANDARDS, type CrankingStandard } from "../core/battery/cranking-amps";
import type { BatteryType, NominalVolts } from "../core/battery/types";
import { entryOf } from "../core/readings/catalogue";
import type { ChoiceEntry } from "../core/readings/types";
import { fail, ok } from "../core/result";
import { choice, number, optional, optionalOrAbsent, reading, type Argument } from "./arguments";

/** Arguments that the battery functions share: one range and one unit each. */
const choicesOf = (id: string) => (entryOf(id) as ChoiceEntry).choices;

export const TYPE = choice(
  "type",
  choicesOf("battery-type") as readonly { value: BatteryType; label: string; synonyms?: readonly string[] }[],
);
export const STANDARD = optional(
  choice(
    "standard",
    (Object.keys(CRANKING_STANDARDS) as CrankingStandard[]).map((value) => ({ value, label: value })),
  ),
  "SAE",
);
export const VOLTS = number("volts", { unit: "V", min: 0, max: 20 });
export const END_VOLTS = reading("volts", { unit: "V", min: 0, max: 20 });
export const RESTED_VOLTS = optionalOrAbsent(number("rested volts", { unit: "V", min: 0, max: 20 }));
export const TEMPERATURE = number("temperature", { unit: "°C", min: -60, max: 90 });
export const OPTIONAL_TEMPERATURE = optionalOrAbsent(TEMPERATURE);
export const REST_HOURS = optionalOrAbsent(number("rest hours", { unit: "h", min: 0, max: 10000 }));
export const GRAVITY = number("specific gravity", { unit: "SG", min: 0.9, max: 1.4 });
export const CAPACITY = number("capacity", { unit: "Ah", min: 0.1, max: 10000 });
export const AMPS = number("amps", { unit: "A", min: 0, max: 5000 });

export function charge(name: string): Argument<number> {
  return number(name, { unit: "1", min: 0, max: 1 });
}

const nominal = number("nominal", { unit: "V", min: 0, max: 48 });

/** 6 or 12; a blank cell that arrives as 0 is blank. */
const sixOrTwelve: Argument<NominalVolts> = {
  name: "nominal",
  read: (cell) => {
    const read = nominal.read(cell);
    if (!read.ok || read.value === null || read.value === 0) return read.ok ? ok(null) : read;
    if (read.value === 6 || read.value === 12) return ok(read.value);
    return fail({ code: "not-understood", what: "nominal", came: `${read.value} V`, expected: "6 or 12" });
  },
};
export const NOMINAL = optionalOrAbsent(sixOrTwelve);
export const NOMINAL_12 = optional(sixOrTwelve, 12);
