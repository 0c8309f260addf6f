import type { Celsius, Fraction, SpecificGravity } from "../quantity";
import { outside } from "../range";
import { fail, ok, type Result } from "../result";
import { readTable, swapped, type Row } from "../table";
import { BATTERY_WORDS, type BatteryType } from "./types";

/** Reference temperature of the American tables, 80 °F [°C]. */
export const REFERENCE_80F = (80 - 32) / 1.8;
/** 0.004 of gravity per 10 °F [1/°C]; the Navy's form gives 0.0006. */
export const GRAVITY_PER_DEGREE = 0.00072;

export interface CorrectionRule {
  /** Temperature that readings are referred to [°C]. */
  readonly reference?: number | undefined;
  /** Change of the reading for each degree [1/°C], 0.0005 to 0.001. */
  readonly perDegree?: number | undefined;
}

/**
 * Specific gravity referred to the table's temperature: warm acid reads low.
 *
 * @param gravity - As read, 0.9 to 1.4
 * @param temperature - Electrolyte temperature [°C], −40 to 70
 * @param rule - Reference temperature (80 °F) and slope (0.00072 per °C)
 * @returns Corrected specific gravity; `outside-range`
 * @source battery-soc-table correction table, 0.004 per 10 °F
 */
export function correctedGravity(
  gravity: number,
  temperature: number,
  rule: CorrectionRule = {},
): Result<SpecificGravity> {
  const { reference = REFERENCE_80F, perDegree = GRAVITY_PER_DEGREE } = rule;
  const range =
    outside("specific gravity", gravity, 0.9, 1.4, "") ??
    outside("temperature", temperature, -40, 70, "°C") ??
    outside("reference temperature", reference, 0, 40, "°C") ??
    outside("correction per °C", perDegree, 0.0005, 0.001, "");
  return range ?? ok((gravity + perDegree * (temperature - reference)) as SpecificGravity);
}

/** Gravity at 100, 75, 50, 25 and 0 % of cells that are full at 1.265, and of those full at 1.280. */
const FULL_AT_1265 = [1.265, 1.225, 1.19, 1.155, 1.12] as const;
const FULL_AT_1280 = [1.28, 1.25, 1.22, 1.19, 1.13] as const;

/**
 * State of charge from a corrected specific gravity.
 *
 * @param gravity - Corrected to the table's temperature, 1.0 to 1.35
 * @param full - Gravity of the full cell, 1.250 to 1.300; 1.265 and 1.280 are the tabled ones
 * @returns State of charge [1], 0 to 1; `outside-range`
 * @source battery-soc-table (full at 1.265), tm-5-1185 table II (full at 1.280)
 */
export function stateOfChargeFromGravity(gravity: number, full = 1.265): Result<Fraction> {
  const range = outside("specific gravity", gravity, 1, 1.35, "") ?? outside("gravity when full", full, 1.25, 1.3, "");
  if (range) return range;
  return ok(readTable(gravityRows(full), gravity) as Fraction);
}

/**
 * Specific gravity that belongs to a state of charge: the same tables the other way.
 *
 * @param charge - State of charge [1], 0 to 1
 * @param full - Gravity of the full cell, 1.250 to 1.300
 * @returns Gravity at the table's temperature; `outside-range`
 * @source battery-soc-table (full at 1.265), tm-5-1185 table II (full at 1.280)
 */
export function gravityAtCharge(charge: number, full = 1.265): Result<SpecificGravity> {
  const range = outside("state of charge", charge, 0, 1, "") ?? outside("gravity when full", full, 1.25, 1.3, "");
  return range ?? ok(readTable(swapped(gravityRows(full)), charge) as SpecificGravity);
}

/** Gravity against charge, rising, for cells that are full at `full`. */
function gravityRows(full: number): readonly Row[] {
  const share = (full - 1.265) / 0.015;
  return FULL_AT_1265.map((g, i): Row => [g + share * (FULL_AT_1280[i]! - g), 1 - i / 4]).reverse();
}

/** Gravity of a full cell by type; the others have no caps to read through. */
export function fullGravityOf(type: BatteryType): Result<number> {
  if (type === "flooded") return ok(1.265);
  if (type === "calcium") return ok(1.28);
  return fail({
    code: "refused",
    what: "battery type",
    why: `${BATTERY_WORDS[type]} batteries have no cells that a hydrometer can reach`,
    instead: "use the rested voltage",
  });
}

/** Freezing point of battery acid [°C] against its gravity at 80 °F, the warmer published values. */
// prettier-ignore
const FREEZING: readonly Row[] = (
  [[1, 32], [1.1, 19], [1.15, 5], [1.2, -16], [1.25, -62], [1.28, -90]] as const
).map(([gravity, fahrenheit]) => [gravity, (fahrenheit - 32) / 1.8] as const);

/**
 * Temperature at which the electrolyte freezes; a frozen battery is neither charged nor tested.
 *
 * @param gravity - Specific gravity corrected to 80 °F, 1.0 to 1.3; from 1.28 on held
 * @returns Freezing point [°C]; `outside-range`
 * @source od1002 page 54, tm-5-1185 table III
 */
export function freezingPoint(gravity: number): Result<Celsius> {
  return outside("specific gravity", gravity, 1, 1.3, "") ?? ok(readTable(FREEZING, gravity) as Celsius);
}
