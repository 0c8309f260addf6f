import { fail, type Result } from "./result";

/** The fault of a number outside its range, NaN included; `undefined` where it lies inside. */
export function outside(what: string, came: number, min: number, max: number, unit: string): Result<never> | undefined {
  return came >= min && came <= max ? undefined : fail({ code: "outside-range", what, came, min, max, unit });
}
