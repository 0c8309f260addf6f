import { ampsAtPolarization, polarization, polarizationSlope } from "./battery-law";
import { unregulated, type Unregulated } from "./averaged";
import { STEPS } from "./emf-table";
import { rippleLines } from "./ripple-spectrum";
import { isBalanced } from "./phase-source";
import { heldState, switchingLevel } from "./regulated-level";
import { createStepper, START_PERIODS, type Stepper } from "./stepper";
import { pooled, type Means } from "./stretch-means";
import type { ChargingSystem, Conditions, OperatingPoint, Triple } from "./types";
import { fail, ok, type Result } from "../result";

/** Periods that a regulated circuit gets to find its rhythm, and that are then measured at a time. */
const SETTLE_PERIODS = 16;
const WINDOW_PERIODS = 16;
const MOST_WINDOWS = 5;
/** Periods with a switching regulator after which it is at work and not just disturbed by the start. */
const BUSY_PERIODS = 8;
const MOST_TRIALS = 14;
/** A polarization this close to its current's is left there [V]. */
const POLARIZATION_TOLERANCE = 0.05;
/** Two states this close, one too high and one too low, are the two ends of the battery's to and fro [V]. */
const EDGE_TOLERANCE = 0.065;
/** The peaks pass a little before the mean does [V]. */
const BEYOND_EDGE = 0.01;
/** Longest step between two trials [V]: a longer one would jump over a rhythm. */
const LONGEST_STEP = 0.12;
/** Without a working regulator the currents repeat after a few periods; after these they never will. */
const MOST_PERIODS = 400;

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

/** With the regulator idle: the period that repeats; `null` where the regulator comes to work. */
function resting(
  stepper: Stepper,
  system: ChargingSystem,
  at: Conditions,
  free: number,
  ripple: boolean,
): Result<OperatingPoint> | null {
  const found = settle(stepper, system, free);
  if (found === null) return notConverged();
  if (found === "regulating") return null;
  const samples = ripple ? new Float64Array(STEPS) : undefined;
  const means = stepper.measure(1, samples);
  if (!means) return notConverged();
  // It can be just in this period that the regulator trips.
  return stepper.toggles() > 0 ? null : ok(pointOf(system, at, stepper.hertz, means, free, true, samples).point);
}

/**
 * With the regulator at work: the polarization at which the mean current is the one that holds it.
 * Near the edge of regulation the regulator works at one polarization and rests at a slightly lower
 * one; the battery then goes to and fro between them, and the mean is their mixture.
 */
function regulating(
  stepper: Stepper,
  system: ChargingSystem,
  at: Conditions,
  free: number,
  ripple: boolean,
): Result<OperatingPoint> {
  const { battery } = system;
  let low: Trial | null = null;
  let high: Trial | null = null;
  let volts = polarization(battery, stepper.slowAmps);
  for (let k = 0; k < MOST_TRIALS; k++) {
    stepper.slowAmps = ampsAtPolarization(battery, volts);
    stepper.reset();
    for (let period = 0; period < SETTLE_PERIODS; period++) if (Number.isNaN(stepper.run())) return notConverged();
    const trial = tryAt(stepper, system, at, free, ripple);
    if (trial === null) return notConverged();
    if (Math.abs(trial.shiftVolts) < POLARIZATION_TOLERANCE) return ok(trial.point);
    if (trial.toggles === 0 && trial.shiftVolts < 0 && trial.means.duty < 0.5) {
      // The machine cannot reach the regulator's level: a fault, or an edge case for the trials that follow.
      const rest = resting(stepper, system, at, free, ripple);
      if (rest !== null) return rest;
    }
    if (trial.shiftVolts > 0) low = { ...trial, volts };
    else high = { ...trial, volts };
    if (low && high && high.volts - low.volts < EDGE_TOLERANCE) break;
    const next =
      volts + (stepToEdge(system, at, trial) ?? Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, trial.shiftVolts)));
    volts = low && high && (next <= low.volts || next >= high.volts) ? 0.5 * (low.volts + high.volts) : next;
  }
  if (low && high && Math.abs(high.volts - low.volts) < LONGEST_STEP) {
    const volts = 0.5 * (low.volts + high.volts);
    const amps = ampsAtPolarization(battery, volts);
    const share = (low.measuredAmps - amps) / (low.measuredAmps - high.measuredAmps);
    if (share >= 0 && share <= 1) {
      const means = pooled(low.means, high.means, share);
      const point = pointOf(
        system,
        at,
        stepper.hertz,
        { ...means, slowAmps: amps },
        free,
        false,
        (share > 0.5 ? high : low).samples,
      ).point;
      return ok(point);
    }
  }
  return notConverged();
}

/**
 * A regulator that rested all the time comes to work when the voltage has moved to its switching level:
 * the battery carries it there one to one.
 */
function stepToEdge(
  system: ChargingSystem,
  at: Conditions,
  { toggles, means, point, shiftVolts }: Trial,
): number | null {
  if (toggles > 0) return null;
  const { regulator } = system;
  const resting = means.duty < 0.5;
  const edge = switchingLevel(regulator, at) + (resting ? 1 : -1) * regulator.hysteresisHalfVolts;
  const toEdge = edge - (regulator.senses === "battery" ? point.batteryVolts : point.regulatorVolts) + shiftVolts;
  const step = toEdge + (resting ? 1 : -1) * BEYOND_EDGE;
  return step * shiftVolts > 0 && Math.abs(step) < Math.abs(shiftVolts) ? step : null;
}

interface Trial {
  readonly point: OperatingPoint;
  readonly means: Means;
  readonly samples: Float64Array | undefined;
  /** Battery current measured, and the change of polarization to where it belongs to that current. */
  readonly measuredAmps: number;
  readonly shiftVolts: number;
  readonly volts: number;
  readonly toggles: number;
}

function notConverged(): Result<OperatingPoint> {
  return fail({ code: "not-converged", what: "charging circuit" });
}

/** Means over windows, more of them while they drift. */
function tryAt(stepper: Stepper, system: ChargingSystem, at: Conditions, free: number, ripple: boolean): Trial | null {
  const samples = ripple ? new Float64Array(STEPS * WINDOW_PERIODS) : undefined;
  let means: Means | null = null;
  let settled = false;
  let toggles = 0;
  let periods = 0;
  for (let window = 1; window <= MOST_WINDOWS && !settled; window++) {
    const next = stepper.measure(WINDOW_PERIODS, samples);
    if (!next) return null;
    means = means ? pooled(means, next, 1 / window) : next;
    toggles += stepper.toggles();
    periods += WINDOW_PERIODS;
    settled = Math.abs(means.halves[1] - means.halves[0]) < Math.max(0.05, 0.01 * Math.abs(means.rectifierAmps));
  }
  // A regulator that trips now and then holds the voltage only in part.
  const held = heldOhms(system, at);
  const ohms = toggles === 0 ? free : toggles > periods / 4 ? held : Math.sqrt(held * free);
  return {
    ...pointOf(system, at, stepper.hertz, means!, ohms, settled, samples),
    means: means!,
    samples,
    volts: 0,
    toggles,
  };
}

/** Runs until the currents repeat with every period, or until the regulator comes to work. */
function settle(stepper: Stepper, system: ChargingSystem, free: number): "periodic" | "regulating" | null {
  const { battery } = system;
  const before = new Float64Array(stepper.coilAmps.length);
  let calm = 0;
  let busy = 0;
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
      const newton = excess / (1 / free + 1 / polarizationSlope(battery, stepper.slowAmps));
      const shift = Math.max(-3 * LONGEST_STEP, Math.min(3 * LONGEST_STEP, newton));
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

/** The same where a regulator holds its voltage [Ω]. */
function heldOhms(system: ChargingSystem, at: Conditions): number {
  const { harness, battery, regulator } = system;
  if (regulator.senses === "battery") return Math.max(battery.ohms, 1e-3);
  return battery.ohms + 1 / (1 / (harness.bplusOhms + harness.groundOhms + 1e-3) + at.loadAmps / 13.5);
}

function pointOf(
  system: ChargingSystem,
  at: Conditions,
  hertz: number,
  means: Means,
  ohms: number,
  settled: boolean,
  samples: Float64Array | undefined,
): { readonly point: OperatingPoint; readonly shiftVolts: number; readonly measuredAmps: number } {
  const { battery, harness } = system;
  const siemens = at.loadAmps / 13.5;
  const postShare = 1 / (1 + battery.ohms * siemens);
  const eta = polarization(battery, means.slowAmps);
  const postVolts = (battery.ocvVolts + eta) * postShare + battery.ohms * postShare * means.rectifierAmps;
  // Last linear step to where current and polarization belong to each other.
  const measured = means.rectifierAmps - postVolts * siemens;
  const shift = (measured - means.slowAmps) / (1 / ohms + 1 / polarizationSlope(battery, means.slowAmps));
  const batteryAmps = measured - shift / ohms;
  const batteryVolts = battery.ocvVolts + eta + shift + battery.ohms * batteryAmps;
  const rectifierAmps = batteryAmps + batteryVolts * siemens;
  const acAmps = Math.sqrt(Math.max(0, means.rectifierSquare - means.rectifierAmps ** 2));
  const roots = (squares: readonly [number, number, number]): Triple<number> => [
    Math.sqrt(squares[0]),
    Math.sqrt(squares[1]),
    Math.sqrt(squares[2]),
  ];
  let leadWatts = 0;
  for (let k = 0; k < 3; k++) {
    if (!harness.leadOpen[k] && !system.bridge.legOpen[k]) {
      leadWatts += (harness.phaseOhms[k]! + harness.statorSideOhms[k]!) * means.lineSquare[k]!;
    }
  }
  const point: OperatingPoint = {
    model: "time-stepped",
    batteryVolts,
    batteryAmps,
    rippleVoltsRms: battery.ohms * postShare * acAmps,
    batteryAmpsAcRms: postShare * acAmps,
    rippleLines: samples ? rippleLines(samples, hertz, 4) : [],
    rectifierAmps,
    phaseAmpsRms: roots(means.lineSquare),
    lineVoltsRms: roots(means.plugSquare),
    regulatorDuty: means.duty,
    regulatorVolts: means.plusVolts + (batteryVolts - postVolts),
    bplusDropVolts: harness.bplusOhms * rectifierAmps,
    groundDropVolts: harness.groundOhms * (rectifierAmps + means.leakAmps),
    regulatorWatts: means.terminalWatts - means.outputWatts,
    statorWatts: means.emfWatts - means.terminalWatts - leadWatts,
    polarizationVolts: eta + shift,
    hertz,
    driftAmps: means.halves[1] - means.halves[0],
    settled,
  };
  return { point, shiftVolts: shift, measuredAmps: measured };
}
