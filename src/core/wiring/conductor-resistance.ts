import type { Ohm, SquareMillimetre, Volt } from "../quantity";
import { outside } from "../range";
import { andThen, fail, ok, type Result } from "../result";
import { sizeWords, type ConductorSize } from "./conductor-size";
import { GAUGE_FACTORS, METRIC_TABLES, type ConductorKind } from "./conductor-tables";

/** Resistivity of annealed copper at 20 °C [Ω·mm²/m]. @source iec60028 */
export const COPPER_OHMS = 0.017241;
/** Change of its resistance for each degree, from 20 °C [1/°C]. @source iec60028 */
export const COPPER_PER_DEGREE = 0.00393;

/**
 * Diameter of an AWG size: each of the 39 steps from 4/0 to 36 is the same ratio.
 *
 * @param gauge - −3 (4/0) to 40
 * @returns Diameter [mm]
 * @source astm-b258
 */
export function gaugeDiameter(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Cross-section of copper that a size stands for [mm²]. */
export function crossSection(size: ConductorSize): SquareMillimetre {
  return (size.system === "AWG" ? (Math.PI / 4) * gaugeDiameter(size.gauge) ** 2 : size.area) as SquareMillimetre;
}

/**
 * The kind that a size is taken for where nobody said: a gauge is solid copper of its diameter, a
 * metric cable is flexible.
 */
export function usualKind(size: ConductorSize): ConductorKind {
  return size.system === "AWG" ? "solid" : "flexible";
}

/**
 * Resistance of a copper conductor at 20 °C, for each metre: the highest that its standard allows,
 * or of its exact cross-section where the kind is `by area`.
 *
 * @returns [Ω/m]; `refused` where the standard of that kind has no such size
 * @source iec60228 tables 1 to 3 (mm²), iso6722, astm-b258 with iec60028 (AWG)
 */
export function ohmsPerMetre(size: ConductorSize, kind: ConductorKind = usualKind(size)): Result<number> {
  const byArea = COPPER_OHMS / crossSection(size);
  if (size.system === "AWG") {
    const factor = GAUGE_FACTORS[kind];
    return factor === undefined ? noSuchSize(size, `no table gives ${kind} conductors in AWG`) : ok(byArea * factor);
  }
  if (kind === "by area") return ok(byArea);
  const { rows, name } = METRIC_TABLES[kind];
  const listed = rows.get(size.area);
  return listed === undefined ? noSuchSize(size, `${name} has no such size`) : ok(listed / 1000);
}

function noSuchSize(size: ConductorSize, why: string): Result<never> {
  return fail({
    code: "refused",
    what: sizeWords(size),
    why,
    instead: "choose another kind, or the kind by area for plain copper of that section",
  });
}

/**
 * Resistance of a length of copper conductor.
 *
 * @param size - Conductor size
 * @param length - Length of the conductor, there and back where both ways count [m], 0 or more
 * @param temperature - Conductor temperature [°C], −60 to 250
 * @param kind - How it is made up; `usualKind` where left out
 * @returns Resistance [Ω]; `outside-range`, or `refused` for a size the kind does not have
 * @source iec60028 R = R₂₀·(1 + 0.00393·(t − 20)); IEC 60228's own rounded factor differs up to 0.4 %
 */
export function conductorOhms(
  size: ConductorSize,
  length: number,
  temperature = 20,
  kind: ConductorKind = usualKind(size),
): Result<Ohm> {
  const range = outside("length", length, 0, 100000, "m") ?? outside("temperature", temperature, -60, 250, "°C");
  if (range) return range;
  return andThen(ohmsPerMetre(size, kind), (each) =>
    ok((each * length * (1 + COPPER_PER_DEGREE * (temperature - 20))) as Ohm),
  );
}

/**
 * Voltage drop of a length of copper conductor that carries a steady current.
 *
 * @param amps - Current [A]
 * @returns Drop [V], in the sense of the current; faults as of `conductorOhms`
 */
export function conductorDrop(
  size: ConductorSize,
  length: number,
  amps: number,
  temperature = 20,
  kind: ConductorKind = usualKind(size),
): Result<Volt> {
  return andThen(conductorOhms(size, length, temperature, kind), (ohms) => ok((ohms * amps) as Volt));
}
