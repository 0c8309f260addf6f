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
