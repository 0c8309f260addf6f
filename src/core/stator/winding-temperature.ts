import { fail, ok, type Result } from "../result";

/** Copper has no resistance left, by its line, at −234.5 °C. @source iec60028 α = 0.00393 /K at 20 °C */
const ZERO_OHMS_AT = -234.5;

export const WINDING_TEMPERATURES = { min: -40, max: 250 } as const;

/** Factor by which copper resistance grows from one temperature to another [1]. @source iec60028 */
export function copperFactor(from: number, to: number): number {
  return (to - ZERO_OHMS_AT) / (from - ZERO_OHMS_AT);
}

/**
 * Refers the resistance of a copper winding to another temperature.
 *
 * @param ohms - Resistance as measured [Ω], 0 or more
 * @param temperature - Temperature when measured [°C], −40 to 250
 * @param wanted - Temperature wanted [°C], −40 to 250
 * @returns Resistance at the wanted temperature [Ω]; `outside-range` for impossible temperatures
 * @source iec60028: 254.5/(234.5 + t), the line of annealed copper
 */
export function ohmsAtTemperature(ohms: number, temperature: number, wanted: number): Result<number> {
  for (const [what, t] of [
    ["temperature", temperature],
    ["target", wanted],
  ] as const) {
    if (!(t >= WINDING_TEMPERATURES.min && t <= WINDING_TEMPERATURES.max)) {
      return fail({ code: "outside-range", what, came: t, ...WINDING_TEMPERATURES, unit: "°C" });
    }
  }
  return ok(ohms * copperFactor(temperature, wanted));
}
