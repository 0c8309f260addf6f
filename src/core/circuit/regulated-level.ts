import type { Unregulated } from "./averaged";
import { dcState, fallingRoot, type DcState } from "./dc-side";
import type { ChargingSystem, Conditions, Regulator } from "./types";

/** Switching level at the regulator's temperature [V]. */
export function switchingLevel(regulator: Regulator, at: Conditions): number {
  return regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
}

/** True where the regulator has a device that still follows its command. */
export function steers(regulator: Regulator): boolean {
  return (regulator.kind === "shunt" || regulator.kind === "series") && regulator.stuck.some((stuck) => stuck === null);
}

/** What the regulator feels: volts at the battery or at its own terminals. */
export function sensedVolts({ regulator }: ChargingSystem, dc: DcState): number {
  return regulator.senses === "battery" ? dc.batteryVolts : dc.regulatorVolts;
}

/**
 * Where the mean lies while the regulator chops [V]. A shunt regulator trips on peaks and then lets the
 * voltage sag by what its whole current makes in the resistance it senses across; a series regulator
 * overshoots by the same before it blocks. The two figures fit 700 machines solved in time.
 */
export function heldVolts(system: ChargingSystem, at: Conditions, free: Unregulated): number {
  const { regulator, battery, harness } = system;
  const ohms = battery.ohms + (regulator.senses === "battery" ? 0 : harness.bplusOhms + harness.groundOhms);
  const swing = 0.23 * Math.min(free.rectifierAmps * ohms, MOST_SWING);
  return switchingLevel(regulator, at) + (regulator.kind === "series" ? swing - 0.045 : 0.075 - swing);
}

const MOST_SWING = 3;

/** How far the mean can lie from `heldVolts`, 95 of 100 machines [V]. */
export function heldError({ senses }: Regulator): number {
  return senses === "battery" ? 0.08 : 0.16;
}

/** Battery, load and harness where the regulator holds its voltage; `null` where the machine cannot reach it. */
export function heldState(system: ChargingSystem, at: Conditions, free: Unregulated): DcState | null {
  if (!steers(system.regulator)) return null;
  const held = heldVolts(system, at, free);
  if (sensedVolts(system, free) <= held) return null;
  const least = -(system.battery.ocvVolts * at.loadAmps) / 13.5 - 1;
  const amps = fallingRoot((i) => held - sensedVolts(system, dcState(system, at, i)), least, free.batteryAmps, 1e-4);
  return amps === null ? null : dcState(system, at, amps);
}
