import type { PieceTable } from "./device-pieces";
import { legsOf } from "./stator-network";
import type { ChargingSystem, DeviceState } from "./types";

/** Devices 0–2 phase → B+, 3–5 ground → phase, 6–8 the shunt devices phase → ground. */
export const DEVICES = 9;

/** The nine devices of bridge and regulator as a system has them. */
export interface BridgeDevices {
  /** The piece that each device starts on. */
  readonly pieces: Int32Array;
  /** Devices that follow the regulator's command. */
  readonly followers: Int32Array;
}

export function bridgeDevices({ alternator, bridge, regulator }: ChargingSystem, table: PieceTable): BridgeDevices {
  const pieces = new Int32Array(DEVICES);
  const followers: number[] = [];
  const series = regulator.kind === "series";
  const legs = legsOf(alternator.kind);
  for (let k = 0; k < 3; k++) {
    const kind = (state: DeviceState, ok: number) =>
      state === "ok" ? ok : state === "short" ? table.shorted : table.blocked;
    const up = legs.upper[k] ? kind(bridge.upper[k]!, series ? table.controlled : table.plain) : table.blocked;
    pieces[k] = up;
    pieces[k + 3] = legs.lower[k] ? kind(bridge.lower[k]!, table.plain) : table.blocked;
    pieces[k + 6] = table.blocked;
    const stuck = regulator.stuck[k];
    if (series && up === table.controlled) {
      if (stuck === "off") pieces[k] = table.blocked;
      else if (stuck === null) followers.push(k);
    } else if (regulator.kind === "shunt" && legs.upper[k]) {
      if (stuck === "on") pieces[k + 6] = table.controlled;
      else if (stuck === null) followers.push(k + 6);
    }
  }
  return { pieces, followers: Int32Array.from(followers) };
}
