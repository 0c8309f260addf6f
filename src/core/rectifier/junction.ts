/**
 * Voltage across a junction at a current: V = n·V_T·ln(I/I_S + 1).
 *
 * @param current - Forward current [A], 0 or more
 * @param saturation - Saturation current I_S [A], above 0
 * @param slope - Ideality times thermal voltage, n·V_T [V], above 0
 * @returns Forward voltage [V]
 * @source shockley1949 equation of the ideal diode
 */
export function junctionVoltage(current: number, saturation: number, slope: number): number {
  return slope * Math.log1p(current / saturation);
}

/** Current through a junction at a voltage, the inverse of `junctionVoltage` [A]. @source shockley1949 */
export function junctionCurrent(volts: number, saturation: number, slope: number): number {
  return saturation * Math.expm1(volts / slope);
}

/** Saturation current that gives `current` [A] at `volts` [V] [A]. @source shockley1949 */
export function saturationCurrent(current: number, volts: number, slope: number): number {
  return current / Math.expm1(volts / slope);
}

/** Thermal voltage kT/q at a temperature [K], with the constants of the SI of 2019 [V]. */
export function thermalVoltage(kelvin: number): number {
  return (1.380649e-23 * kelvin) / 1.602176634e-19;
}

/** A rectifier diode as circuit simulators model it: 1 A at 0.925 V, ideality 2, V_T 26 mV. @source kuphaldt-semi chapter 3 */
const RECTIFIER = { saturation: saturationCurrent(1, 0.925, 2 * 0.026), slope: 2 * 0.026 };

/** Silicon, about 1 mA: colder reads higher [V/°C]. @source common-practice textbook figure */
const PER_DEGREE = -0.002;

/** Conditions to which a forward reading is referred before it is held against a band. */
const REFERENCE = { temperature: 25, testCurrent: 1 };

/**
 * Refers a forward reading to 25 °C and 1 mA of test current; what is not known is left as it is.
 *
 * @param volts - Reading on the meter's diode check [V]
 * @param conditions - Temperature of the part [°C], −40 to 150; test current of the meter [mA], 0.01 to 20
 * @returns What a 1 mA meter would show at 25 °C [V]
 * @source kuphaldt-semi chapter 3 (current); common-practice −2 mV/°C (temperature)
 */
export function atReference(
  volts: number,
  conditions: { readonly temperature?: number; readonly testCurrent?: number },
): number {
  const { temperature = REFERENCE.temperature, testCurrent = REFERENCE.testCurrent } = conditions;
  const forCurrent = modelDrop(REFERENCE.testCurrent) - modelDrop(testCurrent);
  return volts + forCurrent - PER_DEGREE * (temperature - REFERENCE.temperature);
}

/** Forward drop of the model diode at a test current [mA] [V]. */
export function modelDrop(milliamps: number): number {
  return junctionVoltage(milliamps / 1000, RECTIFIER.saturation, RECTIFIER.slope);
}
