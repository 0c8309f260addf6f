import type { DiodeLaw } from "./types";

/** Boltzmann constant over the charge of the electron [V/K]. */
const VOLTS_PER_KELVIN = 8.617333e-5;
/** Band gap of silicon [V] and saturation-current exponent of the usual diode equation. */
const BAND_GAP_VOLTS = 1.11;
const SATURATION_EXPONENT = 3;
const REFERENCE_KELVIN = 298.15;

/** The parts of the drop at one temperature: V = slopeVolts·ln(I/Is + 1) + seriesOhms·I. */
export interface DiodeAt {
  readonly saturationAmps: number;
  /** Ideality times thermal voltage [V]. */
  readonly slopeVolts: number;
  readonly seriesOhms: number;
}

/**
 * The diode law at a temperature, from its values at 25 °C.
 *
 * @param law - Values at 25 °C
 * @param celsius - Junction temperature [°C], −60 to 220
 * @source shockley1949, with the saturation current scaled over temperature as circuit simulators do
 */
export function diodeAt(law: DiodeLaw, celsius: number): DiodeAt {
  const kelvin = celsius + 273.15;
  const slopeVolts = law.ideality * VOLTS_PER_KELVIN * kelvin;
  const ratio = kelvin / REFERENCE_KELVIN;
  const saturationAmps =
    law.saturationAmps *
    Math.exp(((ratio - 1) * BAND_GAP_VOLTS) / slopeVolts) *
    ratio ** (SATURATION_EXPONENT / law.ideality);
  return { saturationAmps, slopeVolts, seriesOhms: law.seriesOhms };
}

/** Forward drop at a current [V]. */
export function dropAt(diode: DiodeAt, amps: number): number {
  return diode.slopeVolts * Math.log1p(amps / diode.saturationAmps) + diode.seriesOhms * amps;
}

/**
 * A device as straight pieces: on piece k, I = slope[k]·V − offset[k] for V from `from[k]` to
 * `from[k + 1]`. Piece 0 is the blocking state. Linear pieces make every time step a small linear
 * system; the knots lie on the law, lifted so that the mean error of each piece is nil.
 */
export interface Pieces {
  readonly from: Float64Array;
  readonly slope: Float64Array;
  readonly offset: Float64Array;
}

/** Leakage of a blocking device [S]: 50 kΩ, as its snubber and the meter's loads see it. */
export const BLOCKING_SIEMENS = 2e-5;

const KNOT_AMPS = [0.05, 0.4, 1.6, 4.5, 10, 20, 40, 90];

/** The pieces of a device with `extraOhms` in series (a controlled device's own resistance). */
export function piecesOf(diode: DiodeAt, extraOhms = 0): Pieces {
  const law = { ...diode, seriesOhms: diode.seriesOhms + extraOhms };
  const first = KNOT_AMPS[0]!;
  const amps = [0, ...KNOT_AMPS];
  const volts = [dropAt(law, first / Math.E)];
  for (let k = 0; k < KNOT_AMPS.length; k++) {
    // A chord of ln lies below it by (ln ratio)²/8 at most, two thirds of that on average.
    const ratio = KNOT_AMPS[k]! / (KNOT_AMPS[k - 1] ?? first / 2);
    volts.push(dropAt(law, KNOT_AMPS[k]!) + (law.slopeVolts * Math.log(ratio) ** 2) / 12);
  }
  const from = Float64Array.of(-Infinity, ...volts.slice(0, -1), Infinity);
  const slope = Float64Array.of(BLOCKING_SIEMENS, ...KNOT_AMPS);
  const offset = new Float64Array(slope.length);
  for (let k = 0; k + 1 < volts.length; k++) {
    const steep = (amps[k + 1]! - amps[k]!) / (volts[k + 1]! - volts[k]!);
    slope[k + 1] = steep + BLOCKING_SIEMENS;
    offset[k + 1] = steep * volts[k]! - amps[k]!;
  }
  return { from, slope, offset };
}

/** A shorted device: a resistance both ways. */
export function shortPieces(ohms: number): Pieces {
  return {
    from: Float64Array.of(-Infinity, Infinity),
    slope: Float64Array.of(1 / Math.max(ohms, 1e-4)),
    offset: Float64Array.of(0),
  };
}

/** An open device: leakage only. */
export function openPieces(): Pieces {
  return {
    from: Float64Array.of(-Infinity, Infinity),
    slope: Float64Array.of(BLOCKING_SIEMENS),
    offset: Float64Array.of(0),
  };
}
