import { diodeAt, dropAt } from "./diode-law";
import type { PhaseSource } from "./six-step";
import { COPPER_PER_C, windingPeakVolts } from "./stator-network";
import type { ChargingSystem, Conditions } from "./types";

/** The machine as its lines see it, and the constant part of one device's drop [V]. */
export interface LineSource extends PhaseSource {
  readonly deviceVolts: number;
}

/**
 * True where every phase and device does the same as its sisters, so that one phase stands for all:
 * what the averaged model asks for. Unequal connectors count while they stay small beside the winding.
 */
export function isBalanced(system: ChargingSystem): boolean {
  const { alternator, bridge, regulator, harness } = system;
  if (alternator.kind === "single-phase half-wave") return false;
  const legs = alternator.kind === "single-phase full-wave" ? 2 : 3;
  const each = (test: (k: number) => boolean) => Array.from({ length: legs }, (_, k) => k).every(test);
  const winding = (alternator.windingOhms + 1e-3) / (alternator.connection === "delta" ? 3 : 1);
  const leads = [0, 1, 2].slice(0, legs).map((k) => harness.phaseOhms[k]! + harness.statorSideOhms[k]!);
  return (
    alternator.windingOpen.every((open) => !open) &&
    !alternator.turnShort &&
    !alternator.groundLeak &&
    each((k) => bridge.upper[k] === "ok" && bridge.lower[k] === "ok" && !bridge.legOpen[k] && !harness.leadOpen[k]) &&
    (regulator.kind === "none" ||
      regulator.kind === "field" ||
      regulator.stuck.every((stuck) => stuck === regulator.stuck[0])) &&
    Math.max(...leads) - Math.min(...leads) <= 0.1 * winding
  );
}

/**
 * The balanced machine's phase at a rectifier current: the device's law becomes a constant drop and
 * a resistance, tangent at the current it carries.
 */
export function lineSource(system: ChargingSystem, at: Conditions, rectifierAmps: number): LineSource {
  const { alternator, bridge, harness, regulator } = system;
  const phases = alternator.kind === "single-phase full-wave" ? 1 : 3;
  const delta = phases === 3 && alternator.connection === "delta";
  const share = delta ? 3 : 1;
  const hot = 1 + COPPER_PER_C * (at.statorCelsius - 20);
  const legs = phases === 1 ? 2 : 3;
  let leads = 0;
  for (let k = 0; k < legs; k++) leads += (harness.phaseOhms[k]! + harness.statorSideOhms[k]!) / (phases === 1 ? 1 : 3);
  const diode = diodeAt(bridge.diode, at.regulatorCelsius);
  const amps = Math.max((phases === 3 ? 2 / 3 : 1) * rectifierAmps, 0.02);
  const deviceOhms = diode.slopeVolts / amps + diode.seriesOhms + (regulator.kind === "series" ? 1.5e-3 : 0);
  const deviceVolts = dropAt(diode, amps) - (diode.slopeVolts / amps + diode.seriesOhms) * amps;
  const hertz = (at.rpm / 60) * alternator.polePairs;
  return {
    phases,
    peakVolts: windingPeakVolts(alternator, at.rpm) / (delta ? Math.sqrt(3) : 1),
    // Seen from the lines, a delta's fifth and seventh harmonic change sign against its fundamental.
    harmonic5: delta ? -alternator.harmonic5 : alternator.harmonic5,
    harmonic7: delta ? -alternator.harmonic7 : alternator.harmonic7,
    ohms: (alternator.windingOhms * hot) / share + leads + deviceOhms * (phases === 1 ? 2 : 1),
    reactance: (2 * Math.PI * hertz * alternator.windingHenry) / share,
    deviceVolts,
  };
}
