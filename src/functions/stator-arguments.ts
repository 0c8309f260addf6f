import { INSULATION_CLASSES, WINDING_KINDS } from "../core/stator/insulation";
import { WINDING_TEMPERATURES } from "../core/stator/winding-temperature";
import { choice, measured, number, optional, optionalOrAbsent, reading, type Argument } from "./arguments";

/** Arguments that the stator functions share: one range and one unit each. */
const volts = { unit: "V AC", min: 0, max: 500 } as const;
const ohms = { unit: "Ω", min: 0, max: 1e9 } as const;
const speed = { unit: "rpm", min: 1, max: 20000 } as const;
const celsius = { unit: "°C", ...WINDING_TEMPERATURES } as const;

/** One of several like readings, volts or ohms: only their ratio counts. */
export function likeReading(name: string): Argument<number> {
  const inVolts = number(name, { unit: "V AC", min: 0, max: 1e9 });
  const inOhms = number(name, ohms);
  return {
    name,
    read: (cell) => {
      const asVolts = inVolts.read(cell);
      const asOhms = asVolts.ok ? asVolts : inOhms.read(cell);
      return asOhms.ok ? asOhms : asVolts;
    },
  };
}
export const VOLTS = number("volts", volts);
export const RPM = number("rpm", { ...speed, min: 0 });
export const READ_RPM = optionalOrAbsent(reading("rpm", speed));
export const AC_VOLTS = (pair: string) => optionalOrAbsent(reading(`no-load AC ${pair}`, volts));
export const LINE_OHMS = (pair: string) => optionalOrAbsent(measured(`reading ${pair}`, ohms));
export const WINDING = (pair: string) => measured(`reading ${pair}`, ohms);
export const LEADS = optionalOrAbsent(reading("leads", { unit: "Ω", min: 0, max: 20 }));
export const STATOR_TEMPERATURE = optionalOrAbsent(reading("stator temperature", celsius));
export const OHMS = number("ohms", ohms);
export const TEMPERATURE = number("temperature", celsius);
export const OPTIONAL_TEMPERATURE = optionalOrAbsent(TEMPERATURE);
export const TARGET = optional(number("target", celsius), 20);
export const CONNECTION = choice("connection", [
  { value: "delta", label: "Delta", synonyms: ["Δ", "triangle", "d"] },
  { value: "wye", label: "Wye (star)", synonyms: ["star", "y"] },
]);
export const MEGOHMS = measured("megohms", { unit: "MΩ", min: 0, max: 1e6 });
export const MEGOHMS_TEN = optionalOrAbsent(number("ten minutes", { unit: "MΩ", min: 0, max: 1e6 }));
export const WOUND = optional(
  choice(
    "winding",
    WINDING_KINDS.map((value) => ({ value, label: value })),
  ),
  "random-wound",
);
export const CLASS = optional(
  choice(
    "insulation class",
    INSULATION_CLASSES.map((value) => ({ value, label: `Class ${value}` })),
  ),
  "B",
);
export const POLES = number("poles", { unit: "1", min: 0, max: 1000 });
