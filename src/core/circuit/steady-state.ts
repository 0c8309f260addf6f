import { ampsAtPolarization, polarization, polarizationSlope } from "./battery-law";
import { unregulated, type Unregulated } from "./averaged";
import { dcState, fallingRoot } from "./dc-side";
import { STEPS } from "./emf-table";
import { rippleLines } from "./ripple-spectrum";
import { createStepper, type Means, type Stepper } from "./stepper";
import type { ChargingSystem, Conditions, OperatingPoint, Regulator, Triple } from "./types";
import { fail, ok, type Result } from "../result";

/** Periods that a regulated circuit gets to find its rhythm, and that are then measured at a time. */
const SETTLE_PERIODS = 16;
const WINDOW_PERIODS = 32;
const MOST_WINDOWS = 3;
const MOST_ATTEMPTS = 6;
/** A polarization this far off its current is worth another stretch; further off, no answer is given [V]. */
const POLARIZATION_TOLERANCE = 0.03;
const RESTART_TOLERANCE = 0.07;
const POLARIZATION_LIMIT = 0.15;
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
  const regulated = regulatedAmps(system, at, guess);
  stepper.slowAmps = regulated ?? guess.batteryAmps;
  let regulating = regulated !== null;
  let last: Measured | null = null;
  for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt++) {
    if (!regulating) {
      const found = settle(stepper, system, free);
      if (found === null) return notConverged();
      if (found === "periodic") {
        const samples = ripple ? new Float64Array(STEPS) : undefined;
        const means = stepper.measure(1, samples);
        if (!means) return notConverged();
        if (stepper.toggles() === 0) return ok(pointOf(system, at, stepper, means, free, true, samples).point);
        // It was just in this period that the regulator tripped.
      }
      regulating = true;
    }
    for (let period = 0; period < SETTLE_PERIODS; period++) {
      if (Number.isNaN(stepper.run())) return notConverged();
    }
    const found = measured(stepper, system, at, ripple, free);
    if (found === null) return notConverged();
    if (found.toggles === 0) {
      regulating = false;
      continue;
    }
    last = found;
    if (Math.abs(found.shiftVolts) < POLARIZATION_TOLERANCE) break;
    stepper.slowAmps = ampsAtPolarization(system.battery, found.point.polarizationVolts);
    // A small correction is tried again from rest; a large one would lose the rhythm that was found.
    if (Math.abs(found.shiftVolts) < RESTART_TOLERANCE) stepper.reset();
  }
  if (last === null || Math.abs(last.shiftVolts) > POLARIZATION_LIMIT) return notConverged();
  return ok(last.point);
}

interface Measured {
  readonly point: OperatingPoint;
  readonly toggles: number;
  /** Change of polarization to where it belongs to the current [V]. */
  readonly shiftVolts: number;
}

function notConverged(): Result<OperatingPoint> {
  return fail({ code: "not-converged", what: "charging circuit" });
}

/** Means over windows, more of them while they drift. */
function measured(stepper: Stepper, system: ChargingSystem, at: Conditions, ripple: boolean, free: number): Measured | null {
  const samples = ripple ? new Float64Array(STEPS * WINDOW_PERIODS) : undefined;
  let means: Means | null = null;
  let settled = false;
  let toggles = 0;
  let periods = 0;
  for (let window = 1; window <= MOST_WINDOWS && !settled; window++) {
    const next = stepper.measure(WINDOW_PERIODS, samples);
    if (!next) return null;
    means = means ? pooled(means, next, window) : next;
    toggles += stepper.toggles();
    periods += WINDOW_PERIODS;
    settled = Math.abs(means.halves[1] - means.halves[0]) < Math.max(0.05, 0.01 * Math.abs(means.rectifierAmps));
  }
  // A regulator that trips now and then holds the voltage only in part.
  const held = heldOhms(system, at);
  const ohms = toggles > periods / 4 ? held : Math.sqrt(held * free);
  return { ...pointOf(system, at, stepper, means!, ohms, settled, samples), toggles };
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
    if (busy >= SETTLE_PERIODS) return "regulating";
    const excess = amps - stepper.slowAmps;
    if (calm > 0) {
      // Newton on the polarization: the current should be the one that holds it.
      const shift = excess / (1 / free + 1 / polarizationSlope(battery, stepper.slowAmps));
      stepper.slowAmps = ampsAtPolarization(battery, polarization(battery, stepper.slowAmps) + shift);
    }
    let change = 0;
    let size = 0.2;
    for (let k = 0; k < before.length; k++) {
      change = Math.max(change, Math.abs(stepper.coilAmps[k]! - before[k]!));
      size = Math.max(size, Math.abs(stepper.coilAmps[k]!));
    }
    if (calm >= 3 && change < 1e-3 * size && Math.abs(excess) < 2e-3 * (1 + Math.abs(amps))) return "periodic";
  }
  return null;
}

/** Means of windows that follow one another. */
function pooled(sum: Means, next: Means, windows: number): Means {
  const mix = (a: number, b: number) => a + (b - a) / windows;
  const three = (a: readonly [number, number, number], b: readonly [number, number, number]) =>
    [mix(a[0], b[0]), mix(a[1], b[1]), mix(a[2], b[2])] as const;
  const out = Object.fromEntries(
    Object.entries(sum).map(([key, value]) => [key, typeof value === "number" ? mix(value, next[key as "duty"]) : value]),
  ) as unknown as Means;
  return {
    ...out,
    halves: [mix(sum.halves[0], next.halves[0]), mix(sum.halves[1], next.halves[1])],
    lineSquare: three(sum.lineSquare, next.lineSquare),
    plugSquare: three(sum.plugSquare, next.plugSquare),
  };
}

/** Where a regulator's mean lies against its switching level, as simulated for many machines [V]. */
function meanOffset({ kind, senses }: Regulator): number {
  if (kind === "series") return 0.06;
  return senses === "battery" ? -0.01 : -0.09;
}

/** Battery current where the regulator holds its voltage; `null` where the machine cannot reach it. */
function regulatedAmps(system: ChargingSystem, at: Conditions, guess: Unregulated): number | null {
  const { regulator, battery } = system;
  if ((regulator.kind !== "shunt" && regulator.kind !== "series") || !regulator.stuck.some((stuck) => stuck === null)) return null;
  const level = regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
  const sensed = (amps: number) => {
    const dc = dcState(system, at, amps);
    return regulator.senses === "battery" ? dc.batteryVolts : dc.regulatorVolts;
  };
  const held = level + meanOffset(regulator);
  if (sensed(guess.batteryAmps) <= held) return null;
  const least = -(battery.ocvVolts * at.loadAmps) / 13.5 - 1;
  return fallingRoot((amps) => held - sensed(amps), least, guess.batteryAmps, 1e-3);
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
  stepper: Stepper,
  means: Means,
  ohms: number,
  settled: boolean,
  samples: Float64Array | undefined,
): { readonly point: OperatingPoint; readonly shiftVolts: number } {
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
    rippleLines: samples ? rippleLines(samples, stepper.hertz, 4) : [],
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
    hertz: stepper.hertz,
    driftAmps: means.halves[1] - means.halves[0],
    settled,
  };
  return { point, shiftVolts: shift };
}
