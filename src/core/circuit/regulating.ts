import { ampsAtPolarization, polarization } from "./battery-law";
import { STEPS } from "./emf-table";
import { notConverged, pointOf, type MeasuredPoint } from "./point-from-means";
import { switchingLevel } from "./regulated-level";
import { resting } from "./resting";
import { findRhythm } from "./rhythm";
import type { Waveform } from "./ripple-spectrum";
import type { Stepper } from "./stepper";
import { pooled, type Means } from "./stretch-means";
import type { ChargingSystem, Conditions, OperatingPoint } from "./types";
import { ok, type Result } from "../result";

/** Periods that a regulated circuit gets to find its rhythm, and that are then measured at a time. */
const SETTLE_PERIODS = 16;
const WINDOW_PERIODS = 16;
const MOST_WINDOWS = 5;
const MOST_TRIALS = 14;
/** A polarization this close to its current's is left there [V]. */
const POLARIZATION_TOLERANCE = 0.05;
/** Two states this close, one too high and one too low, are the two ends of the battery's to and fro [V]. */
const EDGE_TOLERANCE = 0.065;
/** The peaks pass a little before the mean does [V]. */
const BEYOND_EDGE = 0.01;
/** Longest step between two trials [V]: a longer one would jump over a rhythm. */
const LONGEST_STEP = 0.12;
/** Growth of that step for as long as every trial lies on the same side. */
const STRIDE = 1.4;

/**
 * With the regulator at work: the polarization at which the mean current is the one that holds it.
 * Near the edge of regulation the regulator works at one polarization and rests at a slightly lower
 * one; the battery then goes to and fro between them, and the mean is their mixture.
 */
export function regulating(
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
  let longest = LONGEST_STEP;
  for (let k = 0; k < MOST_TRIALS; k++) {
    stepper.slowAmps = ampsAtPolarization(battery, volts);
    stepper.reset();
    const rhythm = findRhythm(stepper, SETTLE_PERIODS);
    if (rhythm === null) return notConverged();
    const trial = tryAt(stepper, system, at, free, ripple, rhythm);
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
    const next = volts + (stepToEdge(system, at, trial) ?? Math.max(-longest, Math.min(longest, trial.shiftVolts)));
    // Far off, with nothing found on the other side yet, the steps grow.
    longest = low && high ? LONGEST_STEP : longest * STRIDE;
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
        (share > 0.5 ? high : low).waveform,
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

interface Trial extends MeasuredPoint {
  readonly means: Means;
  readonly waveform: Waveform | undefined;
  readonly volts: number;
  readonly toggles: number;
}

/** Means over one turn of the rhythm; without a rhythm over windows, more of them while they drift. */
function tryAt(
  stepper: Stepper,
  system: ChargingSystem,
  at: Conditions,
  free: number,
  ripple: boolean,
  rhythm: number,
): Trial | null {
  const length = rhythm || WINDOW_PERIODS;
  const waveform = ripple ? { samples: new Float64Array(STEPS * length), repeats: rhythm > 0 } : undefined;
  let means = stepper.measure(length, waveform?.samples);
  let toggles = stepper.toggles();
  let periods = length;
  for (let window = 2; means && rhythm === 0 && window <= MOST_WINDOWS && drifts(means); window++) {
    const next = stepper.measure(length, waveform?.samples);
    means = next && pooled(means, next, 1 / window);
    toggles += stepper.toggles();
    periods += length;
  }
  if (!means) return null;
  // The two halves of a rhythm differ, yet it does not drift.
  if (rhythm > 0) means = { ...means, halves: [means.rectifierAmps, means.rectifierAmps] };
  // A regulator that trips now and then holds the voltage only in part.
  const held = heldOhms(system, at);
  const ohms = toggles === 0 ? free : toggles > periods / 4 ? held : Math.sqrt(held * free);
  return {
    ...pointOf(system, at, stepper.hertz, means, ohms, !drifts(means), waveform),
    means,
    waveform,
    volts: 0,
    toggles,
  };
}

function drifts({ halves, rectifierAmps }: Means): boolean {
  return Math.abs(halves[1] - halves[0]) >= Math.max(0.05, 0.01 * Math.abs(rectifierAmps));
}

/** What the battery sees of the rest where a regulator holds its voltage [Ω]. */
function heldOhms(system: ChargingSystem, at: Conditions): number {
  const { harness, battery, regulator } = system;
  if (regulator.senses === "battery") return Math.max(battery.ohms, 1e-3);
  return battery.ohms + 1 / (1 / (harness.bplusOhms + harness.groundOhms + 1e-3) + at.loadAmps / 13.5);
}
