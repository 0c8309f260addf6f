import type { Battery } from "./types";

/**
 * Polarization at a steady current [V]: η(I) = a·asinh(I/b), with the charging pair above 0 A and the
 * discharging pair below.
 *
 * @source butler-volmer
 */
export function polarization(battery: Battery, amps: number): number {
  return amps >= 0
    ? battery.chargeVolts * Math.asinh(amps / battery.chargeAmps)
    : battery.dischargeVolts * Math.asinh(amps / battery.dischargeAmps);
}

/** Steady current that belongs to a polarization [A]. */
export function ampsAtPolarization(battery: Battery, volts: number): number {
  return volts >= 0
    ? battery.chargeAmps * Math.sinh(Math.min(volts / battery.chargeVolts, 50))
    : battery.dischargeAmps * Math.sinh(Math.max(volts / battery.dischargeVolts, -50));
}

/** Slope dη/dI at a steady current [Ω]. */
export function polarizationSlope(battery: Battery, amps: number): number {
  return amps >= 0
    ? battery.chargeVolts / Math.hypot(amps, battery.chargeAmps)
    : battery.dischargeVolts / Math.hypot(amps, battery.dischargeAmps);
}

/**
 * Steady battery voltage when everything beside it can be drawn as a straight source line
 * I = (openVolts − V)/sourceOhms; bracketed, since the law is monotone.
 *
 * @returns Volts at the posts and current into the battery
 */
export function batteryOnLine(
  battery: Battery,
  openVolts: number,
  sourceOhms: number,
): { volts: number; amps: number } {
  const span = openVolts - battery.ocvVolts;
  // The current has the sign of the span and cannot exceed what resistance alone would let flow.
  let low = Math.min(0, span / (sourceOhms + battery.ohms));
  let high = Math.max(0, span / (sourceOhms + battery.ohms));
  let amps = 0.5 * (low + high);
  for (let k = 0; k < 60 && high - low > 1e-9 * (1 + Math.abs(amps)); k++) {
    const residual = span - polarization(battery, amps) - (sourceOhms + battery.ohms) * amps;
    if (residual > 0) low = amps;
    else high = amps;
    const newton = amps + residual / (sourceOhms + battery.ohms + polarizationSlope(battery, amps));
    amps = newton > low && newton < high ? newton : 0.5 * (low + high);
  }
  return { volts: battery.ocvVolts + battery.ohms * amps + polarization(battery, amps), amps };
}
