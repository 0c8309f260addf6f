import { unregulated, type Unregulated } from "./averaged";
import { isBalanced } from "./phase-source";
import { heldState } from "./regulated-level";
import { regulating } from "./regulating";
import { resting } from "./resting";
import { createStepper } from "./stepper";
import type { ChargingSystem, Conditions, OperatingPoint } from "./types";
import type { Result } from "../result";

/**
 * The operating point by time stepping: valid for every state of the parts, discontinuous conduction
 * and a chopping regulator included.
 *
 * A chopping regulator can have more than one rhythm at nearly the same mean; which one comes depends
 * on the start. The start here is from rest, as when the engine is started.
 *
 * @param system - The circuit; rpm above 0
 * @param at - Speed, load, temperatures
 * @param ripple - Whether the ripple's spectrum is wanted
 * @returns The point, or `not-converged`
 */
export function timeStepped(system: ChargingSystem, at: Conditions, ripple: boolean): Result<OperatingPoint> {
  const stepper = createStepper(system, at);
  const guess = unregulated(system, at);
  const free = freeOhms(system, at, guess);
  const regulated = heldState(system, at, guess);
  if (regulated === null || !isBalanced(system)) {
    // A broken machine can rest below the regulator's level or above it: it comes from below.
    stepper.slowAmps = isBalanced(system) ? guess.batteryAmps : Math.min(0, guess.batteryAmps);
    const rest = resting(stepper, system, at, free, ripple);
    if (rest !== null) return rest;
  }
  if (regulated !== null) stepper.slowAmps = regulated.batteryAmps;
  return regulating(stepper, system, at, free, ripple);
}

/** What the battery sees of the rest where the machine gives all it can: slope of its curve, load beside it [Ω]. */
function freeOhms(system: ChargingSystem, at: Conditions, guess: Unregulated): number {
  const { harness, battery } = system;
  const amps = Math.max(guess.rectifierAmps, 0.05);
  const source = guess.source;
  const machine = source
    ? 1.64 * (source.ohms + (source.reactance ** 2 * amps) / (0.64 * guess.regulatorVolts + source.ohms * amps))
    : 1e3;
  const series = machine + harness.bplusOhms + harness.groundOhms;
  return battery.ohms + 1 / (1 / series + at.loadAmps / 13.5);
}
