import { ampsAtPolarization, polarization, polarizationSlope } from "./battery-law";
import { STEPS } from "./emf-table";
import { notConverged, pointOf } from "./point-from-means";
import { START_PERIODS, type Stepper } from "./stepper";
import type { ChargingSystem, Conditions, OperatingPoint } from "./types";
import { ok, type Result } from "../result";

/** Periods with a switching regulator after which it is at work and not just disturbed by the start. */
const BUSY_PERIODS = 8;
/** Without a working regulator the currents repeat after a few periods; after these they never will. */
const MOST_PERIODS = 400;
/** Periods after which a polarization that still swings to and fro is damped. */
const PATIENCE = 40;
/** Longest change of the polarization in one period [V]. */
const LONGEST_SHIFT = 0.36;

/** With the regulator idle: the period that repeats; `null` where the regulator comes to work. */
export function resting(
  stepper: Stepper,
  system: ChargingSystem,
  at: Conditions,
  free: number,
  ripple: boolean,
): Result<OperatingPoint> | null {
  const found = settle(stepper, system, free);
  if (found === null) return notConverged();
  if (found === "regulating") return null;
  const waveform = ripple ? { samples: new Float64Array(STEPS), repeats: true } : undefined;
  const means = stepper.measure(1, waveform?.samples);
  if (!means) return notConverged();
  // It can be just in this period that the regulator trips.
  return stepper.toggles() > 0 ? null : ok(pointOf(system, at, stepper.hertz, means, free, true, waveform).point);
}

/** Runs until the currents repeat with every period, or until the regulator comes to work. */
function settle(stepper: Stepper, system: ChargingSystem, free: number): "periodic" | "regulating" | null {
  const { battery } = system;
  const before = new Float64Array(stepper.coilAmps.length);
  let calm = 0;
  let busy = 0;
  let lastExcess = 0;
  let damping = 1;
  for (let period = 0; period < MOST_PERIODS; period++) {
    before.set(stepper.coilAmps);
    const amps = stepper.run();
    if (Number.isNaN(amps)) return null;
    calm = stepper.toggles() > 0 ? 0 : calm + 1;
    busy = calm === 0 ? busy + 1 : busy;
    if (busy >= BUSY_PERIODS) return "regulating";
    const excess = amps - stepper.slowAmps;
    if (calm > 2) {
      // Newton on the polarization, once the start has died down: the current should be the one that holds it.
      // Swinging to and fro for long, it takes the machine for weaker than it is: then smaller steps.
      if (period > PATIENCE && excess * lastExcess < 0) damping *= 0.5;
      lastExcess = excess;
      const newton = (damping * excess) / (1 / free + 1 / polarizationSlope(battery, stepper.slowAmps));
      const shift = Math.max(-LONGEST_SHIFT, Math.min(LONGEST_SHIFT, newton));
      stepper.slowAmps = ampsAtPolarization(battery, polarization(battery, stepper.slowAmps) + shift);
    }
    let change = 0;
    let size = 0.2;
    for (let k = 0; k < before.length; k++) {
      change = Math.max(change, Math.abs(stepper.coilAmps[k]! - before[k]!));
      size = Math.max(size, Math.abs(stepper.coilAmps[k]!));
    }
    if (calm > START_PERIODS + 2 && change < 1e-3 * size && Math.abs(excess) < 2e-3 * (1 + Math.abs(amps)))
      return "periodic";
  }
  return null;
}
