import type { Frame } from "./frame";

/** (2/π)·(14 V and two devices of 0.85 V): what a phase's fundamental stands against [V]. */
const AGAINST = (2 / Math.PI) * 15.7;
/** Winding resistance times rated output of one wye-equivalent phase where the plate is silent [Ω·W]. */
const USUAL_OHM_WATTS = 105;
/** Copper at a running stator's 90 °C against 20 °C. */
const HOT = 1.275;

/**
 * Output that the plate promises at a speed, as a share of the rated output: emf from the no-load
 * figure, reactance from the rated output, resistance from the winding's figure.
 *
 * @param rpm - Engine speed [rpm]
 * @returns Share of the rated output [1]; `undefined` where the plate gives no no-load figure
 * @source computed: (V1 + R·I)² + (X·I)² = E², the phasor line of a bridge on a constant voltage; within 5 % from
 *   1.5 times the emf at which it starts to conduct
 */
export function plateShare(frame: Frame, rpm: number | undefined): number | undefined {
  const { emfPerKrpm, ratedAmps, ratedRpm, voltScale } = frame;
  if (emfPerKrpm === undefined || rpm === undefined) return undefined;
  const scaledEmf = emfPerKrpm * voltScale;
  const rated = (ratedAmps * Math.PI) / 3;
  const ohms =
    HOT * (frame.lineOhms === undefined ? USUAL_OHM_WATTS / (ratedAmps * 14) : (frame.lineOhms / 2) * voltScale ** 2);
  const peak = (at: number) => (scaledEmf * at) / 1000 / Math.sqrt(1.5);
  const real = AGAINST + ohms * rated;
  const reactanceAtRated = Math.sqrt(Math.max(peak(ratedRpm) ** 2 - real ** 2, (0.3 * peak(ratedRpm)) ** 2)) / rated;
  const reactance = (reactanceAtRated * rpm) / ratedRpm;
  const e = peak(rpm);
  if (e <= AGAINST) return 0;
  // a·I² + 2b·I − (E² − V1²) = 0
  const a = ohms ** 2 + reactance ** 2;
  const b = ohms * AGAINST;
  const amps = (-b + Math.sqrt(b ** 2 + a * (e ** 2 - AGAINST ** 2))) / a;
  return amps / rated;
}
