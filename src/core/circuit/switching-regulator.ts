import type { BridgeDevices } from "./bridge-devices";
import type { PieceTable } from "./device-pieces";
import { switchingLevel } from "./regulated-level";
import type { Stage } from "./stage";
import type { ChargingSystem, Conditions } from "./types";

/** A fired device stays on above this current [A]. */
const HOLDING_AMPS = 1e-3;

/** Sensing filter, comparator, and the devices that follow it. */
export interface SwitchingRegulator {
  /** Voltage behind the sensing filter [V]. */
  filtered: number;
  /** Whether the comparator holds the output back. */
  over: boolean;
  /** How often it has switched since the caller last cleared it. */
  toggles: number;
  /** 1 for a device that conducts by the regulator's command. */
  readonly latches: Uint8Array;
  /** False while the start's own inrush must not trip it. */
  looks: boolean;
  /** Back to rest at this voltage [V], the output let through. */
  reset(volts: number): void;
  /** Whether the comparator would switch now. */
  crosses(): boolean;
  /** The comparator looks, and the devices follow from here on. */
  command(stage: Stage): void;
}

/**
 * A shunt or series regulator.
 *
 * @param pieces - The piece of each device now; the regulator moves those of its followers
 */
export function switchingRegulator(
  { regulator }: ChargingSystem,
  at: Conditions,
  table: PieceTable,
  { followers }: BridgeDevices,
  pieces: Int32Array,
): SwitchingRegulator {
  const { slope, offset, blocked, controlled } = table;
  const series = regulator.kind === "series";
  const level = switchingLevel(regulator, at);
  const trip = level + regulator.hysteresisHalfVolts;
  const release = level - regulator.hysteresisHalfVolts;
  const latches = new Uint8Array(pieces.length);
  const self: SwitchingRegulator = {
    filtered: 0,
    over: false,
    toggles: 0,
    latches,
    looks: false,
    reset,
    crosses,
    command,
  };
  return self;

  function reset(volts: number): void {
    self.filtered = volts;
    self.over = false;
    for (let k = 0; k < followers.length; k++) latches[followers[k]!] = series ? 1 : 0;
  }

  function crosses(): boolean {
    return self.looks && (self.over ? self.filtered < release : self.filtered > trip);
  }

  function command({ volts, plus }: Stage): void {
    if (crosses()) {
      self.over = !self.over;
      self.toggles++;
    }
    const gate = series ? !self.over : self.over;
    for (let k = 0; k < followers.length; k++) {
      const d = followers[k]!;
      if (latches[d] === 1) {
        if (gate) continue;
        const v = d < 3 ? volts[d]! - plus : volts[d - 6]!;
        if (slope[pieces[d]!]! * v - offset[pieces[d]!]! < HOLDING_AMPS) {
          latches[d] = 0;
          pieces[d] = blocked;
        }
      } else if (gate) {
        latches[d] = 1;
        pieces[d] = controlled;
      }
    }
  }
}
