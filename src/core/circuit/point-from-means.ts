import { polarization, polarizationSlope } from "./battery-law";
import { rippleLines, type Waveform } from "./ripple-spectrum";
import type { Means } from "./stretch-means";
import type { ChargingSystem, Conditions, OperatingPoint, Triple } from "./types";
import { fail, type Result } from "../result";

/** The answer where no steady state was found: no number at all. */
export function notConverged(): Result<OperatingPoint> {
  return fail({ code: "not-converged", what: "charging circuit" });
}

/** A point, and how far it lay from the steady state. */
export interface MeasuredPoint {
  readonly point: OperatingPoint;
  /** Battery current measured [A], and the change of polarization to where it belongs to that current [V]. */
  readonly measuredAmps: number;
  readonly shiftVolts: number;
}

/**
 * The operating point from the means of a stretch, with a last linear step to the steady state.
 *
 * @param ohms - What the battery sees of the rest, for that step [Ω]
 */
export function pointOf(
  system: ChargingSystem,
  at: Conditions,
  hertz: number,
  means: Means,
  ohms: number,
  settled: boolean,
  waveform: Waveform | undefined,
): MeasuredPoint {
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
    rippleLines: waveform ? rippleLines(waveform, hertz, 4) : [],
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
