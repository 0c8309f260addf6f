import { judge, type JudgeOptions } from "../judgement/judge";
import type { Judged, Limit } from "../judgement/types";
import { numberIn, quantityById } from "../readings/catalogue";
import type { Job, Measured } from "../readings/types";
import { groundedByDesign } from "./ground";

/** Base temperature of insulation readings [°C]. @source ieee43 */
const BASE = 40;

/** Test voltage for windings rated below 1000 V [V DC]. @source ieee43 table 1 */
export const TEST_VOLTAGE = 500;

export const WINDING_KINDS = ["random-wound", "form-wound", "before 1970"] as const;
export type WindingKind = (typeof WINDING_KINDS)[number];

/**
 * What halves with every 10 °C: insulation resistance with the temperature of the winding, its life
 * with the temperature it runs at.
 *
 * @param value - Value at `from`, any unit
 * @param from - Temperature it belongs to [°C]
 * @param to - Temperature wanted [°C]
 * @returns Value at `to`, same unit
 * @source ieee43 thermoplastic rule, 0.5^((to − from)/10)
 */
export function halvedEveryTen(value: number, from: number, to: number): number {
  return value * 0.5 ** ((to - from) / 10);
}

/**
 * Insulation resistance referred to 40 °C.
 *
 * @param megohms - 1 minute reading [MΩ], 0 or more
 * @param temperature - Winding temperature [°C], −40 to 250
 * @returns Resistance at 40 °C [MΩ]
 * @source ieee43 thermoplastic rule
 */
export function insulationAtBase(megohms: number, temperature: number): number {
  return halvedEveryTen(megohms, temperature, BASE);
}

/**
 * Lowest insulation resistance at 40 °C that a winding may have.
 *
 * @param winding - How it is wound; small alternators are random-wound
 * @param kilovolts - Rated voltage [kV], for windings before 1970
 * @returns Minimum [MΩ]
 * @source ieee43 table 3
 */
export function minimumInsulation(winding: WindingKind, kilovolts = 0): number {
  return { "random-wound": 5, "form-wound": 100, "before 1970": kilovolts + 1 }[winding];
}

export const INSULATION_CLASSES = ["A", "B", "F", "H"] as const;
export type InsulationClass = (typeof INSULATION_CLASSES)[number];

/** Lowest polarization index, 10 minute over 1 minute reading [1]. @source ieee43 table of classes */
export function minimumPolarizationIndex(insulation: InsulationClass): number {
  return insulation === "A" ? 1.5 : 2;
}

/** Coldest a winding is likely to be where nobody noted it [°C]: the limit is highest there. */
const COLDEST_UNNOTED = 10;

/**
 * Limit of an insulation reading at its own temperature; where that is not known, it passes as if
 * the winding were cold and fails only below what a winding at 40 °C must have.
 */
export function insulationLimit(temperature: number | undefined, winding: WindingKind = "random-wound"): Limit {
  const minimum = minimumInsulation(winding);
  const at = (t: number) => halvedEveryTen(minimum, BASE, t);
  const words = `IEEE 43: ${minimum} MΩ at 40 °C, ${winding}`;
  if (temperature !== undefined)
    return {
      low: at(temperature),
      origin: { from: "published", source: "ieee43", words: `${words}, referred to ${temperature} °C` },
    };
  return {
    low: at(COLDEST_UNNOTED),
    lenient: { low: minimum },
    origin: { from: "published", source: "ieee43", words: `${words}; winding temperature not noted` },
  };
}

/** Judges the 500 V insulation that was read in a job, at its own temperature. */
export function judgeInsulation(job: Job, options: JudgeOptions = {}): Judged {
  const limit = insulationLimit(numberIn(job, "insulation-temperature"));
  return groundedByDesign(job) ?? judge(quantityById("insulation"), job.get("insulation"), limit, options);
}

/** Judges an insulation reading by itself. */
export function judgeInsulationReading(measured: Measured, limit: Limit, options: JudgeOptions = {}): Judged {
  return judge(quantityById("insulation"), measured, limit, options);
}
