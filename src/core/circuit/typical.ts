import type { BatteryType } from "../battery/types";

/**
 * Typical values of small-engine charging systems, each with the standard deviation that healthy
 * machines spread by. They stand in where a machine's own data say nothing; every use is named in
 * the answer. Common practice throughout: no standard gives these.
 */
export const TYPICAL = {
  /** Line-to-line no-load AC per 1000 rpm [V]; 12 to 25 V are commonly quoted. */
  emfPerKrpm: { value: 19, relative: 0.15 },
  /** Part-to-part spread of the emf where the nominal is known [1]. */
  emfOfNominal: 0.04,
  ratedWatts: { value: 375, relative: 0.3 },
  ratedRpm: 5000,
  /** Volts at which the output is rated, and the winding's temperature then. */
  ratedVolts: 14,
  ratedCelsius: 90,
  /** Winding resistance between lines times rated watts [Ω·W]: bigger machines have thicker wire. */
  lineOhmWatts: { value: 220, relative: 0.28 },
  ohmsOfNominal: 0.05,
  henryOfRated: 0.06,
  polePairs: 9,
  harmonic5: 0.023,
  harmonic7: 0.012,
  /** Switching level at 25 °C, and by how much it lies above the middle of a stated running band [V]. */
  setVolts: { value: 14.5, sd: 0.2 },
  setAboveMiddle: { value: 0.18, sd: 0.18 },
  voltsPerC: { value: -0.0025, sd: 0.0008 },
  hysteresisHalfVolts: { value: 0.08, sd: 0.024 },
  filterSeconds: { value: 7e-4, sd: 2e-4 },
  diode: { saturationAmps: 1e-9, ideality: 1.5, seriesOhms: 0.0055 },
  diodeLogSpread: 0.37,
  bplusOhms: { value: 0.011, relative: 0.35 },
  groundOhms: { value: 0.0055, relative: 0.35 },
  phaseOhms: { value: 0.006, relative: 0.4 },
  /** Over the surroundings, running and warm [K]. */
  statorRise: { value: 68, sd: 14 },
  regulatorRise: { value: 45, sd: 9 },
  ambientCelsius: { value: 20, sd: 8 },
  capacityAh: { value: 14, relative: 0.35 },
  charge: { value: 0.75, sd: 0.18 },
  restedSd: 0.04,
  /** Resistance of a charged battery at 25 °C times its capacity [Ω·Ah], or times its cranking amps [V]. */
  ohmAh: 0.16,
  ohmCca: 2.3,
  batteryOhms: 0.22,
  /** Share of the rated current that lights and ignition take. */
  loadShare: { value: 0.55, relative: 0.22 },
  loadOfNominal: 0.05,
  tachometer: 0.013,
} as const;

/** How a type takes charge: polarization in volts for 12 V, and its current scale per Ah [A/Ah] when full and when empty. */
export const ACCEPTANCE: Readonly<
  Record<
    BatteryType,
    { readonly volts: number; readonly empty: number; readonly full: number; readonly dischargeVolts: number }
  >
> = {
  flooded: { volts: 0.45, empty: 0.022, full: 0.0032, dischargeVolts: 0.1 },
  calcium: { volts: 0.5, empty: 0.02, full: 0.0025, dischargeVolts: 0.1 },
  agm: { volts: 0.45, empty: 0.024, full: 0.0035, dischargeVolts: 0.1 },
  gel: { volts: 0.5, empty: 0.02, full: 0.003, dischargeVolts: 0.1 },
  // An iron-phosphate cell takes what it is offered until it is nearly full.
  lithium: { volts: 0.12, empty: 0.1, full: 0.002, dischargeVolts: 0.06 },
};
/** Natural logarithm's standard deviation of the acceptance: age and temperature. */
export const ACCEPTANCE_LOG_SPREAD = 0.35;
/** Current scale of discharge per Ah [A/Ah]. */
export const DISCHARGE_PER_AH = 0.018;
