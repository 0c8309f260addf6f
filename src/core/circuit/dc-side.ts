import { polarization } from "./battery-law";
import type { ChargingSystem, Conditions } from "./types";

/** Battery, load and harness in steady state, as functions of the current into the battery. */
export interface DcState {
  readonly batteryAmps: number;
  readonly batteryVolts: number;
  readonly rectifierAmps: number;
  /** Between the regulator's own terminals [V]. */
  readonly regulatorVolts: number;
}

export function dcState(system: ChargingSystem, at: Conditions, batteryAmps: number): DcState {
  const { battery, harness } = system;
  const batteryVolts = battery.ocvVolts + battery.ohms * batteryAmps + polarization(battery, batteryAmps);
  const rectifierAmps = batteryAmps + (batteryVolts * at.loadAmps) / 13.5;
  return {
    batteryAmps,
    batteryVolts,
    rectifierAmps,
    regulatorVolts: batteryVolts + (harness.bplusOhms + harness.groundOhms) * rectifierAmps,
  };
}

/**
 * Root of a falling function between two currents (regula falsi, Illinois form).
 *
 * @returns The current, or `null` where the signs do not bracket a root or it is not met in 60 tries
 */
export function fallingRoot(f: (amps: number) => number, low: number, high: number, tolerance: number): number | null {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (!(fa >= 0 && fb <= 0)) return null;
  for (let k = 0; k < 60; k++) {
    if (fa === 0) return a;
    if (fb === 0 || Math.abs(b - a) < tolerance) return b;
    const c = b - (fb * (b - a)) / (fb - fa);
    const fc = f(c);
    if (!Number.isFinite(fc)) return null;
    if (fb * fc < 0) {
      a = b;
      fa = fb;
    } else {
      fa *= 0.5;
    }
    b = c;
    fb = fc;
    if (Math.abs(fc) < tolerance) return c;
  }
  return null;
}

/** The battery alone carries the load: nothing comes from the rectifier. */
export function batteryAlone(system: ChargingSystem, at: Conditions): DcState {
  const most = -((system.battery.ocvVolts + 1) * at.loadAmps) / 13.5 - 1e-6;
  const amps = at.loadAmps === 0 ? 0 : (fallingRoot((i) => -dcState(system, at, i).rectifierAmps, most, 0, 1e-9) ?? 0);
  return dcState(system, at, amps);
}
