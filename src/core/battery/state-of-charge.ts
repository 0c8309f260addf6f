import type { Fraction, Volt } from "../quantity";
import { outside } from "../range";
import { TYPICAL_HANDHELD, uncertaintyOf } from "../judgement/meter";
import { fail, ok, type Result } from "../result";
import { readTable, swapped } from "../table";
import { REST_TABLES, SURFACE_CHARGE } from "./rest-tables";
import { BATTERY_WORDS, type BatteryType, type NominalVolts } from "./types";

/** What is known of how a rested voltage was read. */
export interface RestConditions {
  /** 12 V where left out, unless the voltage itself raises the question [V]. */
  readonly nominal?: NominalVolts | undefined;
  /** Battery temperature [°C], −40 to 60; the tables stand at 25 to 27 °C. */
  readonly temperature?: number | undefined;
  /** Time at rest since it was charged or loaded [h], 0 or more; taken as fully rested where left out. */
  readonly hoursRested?: number | undefined;
  /** Standard uncertainty of the voltage [V]; a typical hand-held meter where left out. */
  readonly u?: number | undefined;
}

export interface ChargeBand {
  readonly low: Fraction;
  readonly likely: Fraction;
  readonly high: Fraction;
  /** What widens the band beyond the usual; blank where nothing does. */
  readonly note: string;
}

/** Published tables disagree even in the sign of the temperature effect: the band widens instead. */
const VOLTS_PER_DEGREE = 0.0025;
const WIDEST_FOR_TEMPERATURE = 0.1;

/**
 * State of charge from the rested voltage, from the table of the battery's type.
 *
 * @param volts - Rested open-circuit voltage [V], 0 up to the float voltage of the type
 * @param type - Battery type
 * @param conditions - Nominal voltage, temperature, hours at rest
 * @returns State of charge [1], 0 to 1; `refused` for a voltage of a battery on charge, `ambiguous`
 *   for one that fits a 6 V battery and a dead 12 V one
 * @source battery-soc-table (flooded), tm-5-1185 (calcium), lfp-cell-curve (lithium), common-practice (AGM, gel)
 */
export function stateOfCharge(volts: number, type: BatteryType, conditions: RestConditions = {}): Result<Fraction> {
  const at12 = voltsAt12(volts, type, conditions);
  if (!at12.ok) return at12;
  return ok(readTable(REST_TABLES[type].rows, at12.value) as Fraction);
}

/**
 * State of charge with its honest band: disagreement of tables, the meter, temperature, and what a
 * rest too short leaves standing. On lithium's flat plateau the band is wide, because it is.
 *
 * @returns Lowest, likeliest and highest state of charge [1]; faults as of `stateOfCharge`
 */
export function stateOfChargeBand(
  volts: number,
  type: BatteryType,
  conditions: RestConditions = {},
): Result<ChargeBand> {
  const at12 = voltsAt12(volts, type, conditions);
  if (!at12.ok) return at12;
  const { rows, spreadCharge } = REST_TABLES[type];
  const half = halfWidthVolts(volts, type, conditions);
  const likely = readTable(rows, at12.value);
  const flat = onPlateau(likely, spreadCharge) ? spreadCharge : 0;
  return ok({
    low: Math.max(0, Math.min(readTable(rows, at12.value - half), likely - flat)) as Fraction,
    likely: likely as Fraction,
    high: Math.min(1, Math.max(readTable(rows, at12.value + half), likely + flat)) as Fraction,
    note: [
      flat > 0 ? "lithium's voltage is flat here: the charge can be told to ±20 % points only" : "",
      surfaceCharge(type, conditions.hoursRested) > REST_TABLES[type].spreadVolts
        ? "rested too short: surface charge or a load's dip may remain"
        : "",
    ]
      .filter(Boolean)
      .join("; "),
  });
}

function onPlateau(likely: number, spreadCharge: number): boolean {
  return spreadCharge > 0 && likely > 0.15 && likely < 0.95;
}

/** How far the rested voltage of a 12 V battery may stand from its table [V]. */
function halfWidthVolts(
  volts: number,
  type: BatteryType,
  { nominal, temperature, hoursRested, u }: RestConditions,
): number {
  const { spreadVolts } = REST_TABLES[type];
  const scale = 12 / (nominal ?? 12);
  const meter = 2 * scale * (u ?? uncertaintyOf({ kind: "number", value: volts }, TYPICAL_HANDHELD, "dc volts"));
  const warmth =
    temperature === undefined ? 0 : Math.min(WIDEST_FOR_TEMPERATURE, Math.abs(temperature - 25) * VOLTS_PER_DEGREE);
  return Math.hypot(spreadVolts, meter, warmth) + surfaceCharge(type, hoursRested);
}

/** What may still stand above or below the true rest after so many hours [V at 12 V]. */
export function surfaceCharge(type: BatteryType, hoursRested: number | undefined): number {
  if (hoursRested === undefined) return 0;
  return SURFACE_CHARGE * 2 ** (-hoursRested / REST_TABLES[type].surfaceHalfLife);
}

/**
 * Rested voltage that belongs to a state of charge: the tables the other way.
 *
 * @param charge - State of charge [1], 0 to 1
 * @param type - Battery type
 * @param nominal - Nominal voltage [V]
 * @returns Rested voltage [V]; `outside-range`, or `refused` for a lithium battery of 6 V
 */
export function restedVoltage(charge: number, type: BatteryType, nominal: NominalVolts = 12): Result<Volt> {
  const refused = outside("state of charge", charge, 0, 1, "") ?? refuseLithiumOf6(type, nominal);
  if (refused) return refused;
  return ok((readTable(swapped(REST_TABLES[type].rows), charge) * (nominal / 12)) as Volt);
}

function voltsAt12(
  volts: number,
  type: BatteryType,
  { nominal, temperature, hoursRested }: RestConditions,
): Result<number> {
  const table = REST_TABLES[type];
  const refused =
    refuseLithiumOf6(type, nominal) ??
    outside("temperature", temperature ?? 25, -40, 60, "°C") ??
    outside("hours rested", hoursRested ?? 0, 0, 10000, "h") ??
    outside("rested voltage", volts, 0, 20, "V");
  if (refused) return refused;
  if (nominal === undefined && type !== "lithium" && volts >= 5.5 && volts <= 6.9) {
    return fail({
      code: "ambiguous",
      what: "rested voltage",
      came: `${volts} V`,
      question: "give the nominal voltage, 6 for a 6 V battery or 12 for a dead 12 V one",
    });
  }
  const at12 = (volts * 12) / (nominal ?? 12);
  if (at12 > table.restedTop) {
    return fail({
      code: "refused",
      what: "rested voltage",
      why: `${volts} V is a charging voltage for ${BATTERY_WORDS[type]} batteries, not a rested one`,
      instead: "switch everything off, let it rest and read again",
    });
  }
  return ok(at12);
}

function refuseLithiumOf6(type: BatteryType, nominal: NominalVolts | undefined): Result<never> | undefined {
  if (type !== "lithium" || nominal !== 6) return undefined;
  return fail({
    code: "refused",
    what: "battery type",
    why: "lithium is known here with four cells, which is a 12 V battery",
    instead: "leave the nominal voltage at 12 or choose another type",
  });
}
