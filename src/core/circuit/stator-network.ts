import type { Alternator, AlternatorKind, ChargingSystem, Conditions, Triple } from "./types";

/** Copper per °C from 20 °C. @source iec60028 (α₂₀ = 0.00393 K⁻¹) */
export const COPPER_PER_C = 0.00393;
/** A parted lead or winding [Ω]; the meter and dirt still see something. */
const PARTED_OHMS = 1e7;
const LEAST_OHMS = 1e-5;

/** One coil with its emf: v1 − v2 = share·e(winding) − R·i − L·di/dt, i delivered into node 1. */
interface Coil {
  readonly from: number;
  readonly to: number;
  readonly winding: number;
  readonly share: number;
  readonly ohms: number;
  readonly henry: number;
}

/** Windings, leads and connectors up to the three bridge terminals, as a list of coils and resistances. */
export interface StatorNetwork {
  readonly coils: readonly Coil[];
  /** Mutual inductance of two coils [H]. */
  readonly mutual: readonly { readonly first: number; readonly second: number; readonly henry: number }[];
  readonly resistors: readonly { readonly from: number; readonly to: number; readonly ohms: number }[];
  /** Nodes: 0 to 2 are the bridge terminals, then inner nodes; FRAME is the machine's frame. */
  readonly nodes: number;
  /** Nodes at which the meter clips on, per phase (the stator plug). */
  readonly plug: readonly [number, number, number];
  /** Inner node that touches the frame, if any. */
  readonly leak?: { readonly node: number; readonly ohms: number };
  /** Copper losses that are heat in the stator, beside the coils: the contact of shorted turns. */
  readonly inStator: readonly number[];
}

/**
 * Draws the stator of a system, with its faults, as coils and resistances. Single-phase machines use
 * winding A: between terminals A and B (full wave), or between A and ground (half wave).
 */
export function statorNetwork(system: ChargingSystem, at: Conditions): StatorNetwork {
  const { alternator, harness, bridge } = system;
  const hot = alternator.windingOhms * (1 + COPPER_PER_C * (at.statorCelsius - 20));
  const coils: Coil[] = [];
  const mutual: { first: number; second: number; henry: number }[] = [];
  const resistors: { from: number; to: number; ohms: number }[] = [];
  const inStator: number[] = [];
  let nodes = 3;
  let leak: StatorNetwork["leak"];
  const resistor = (from: number, to: number, ohms: number) =>
    resistors.push({ from, to, ohms: Math.max(ohms, LEAST_OHMS) }) - 1;
  // Bridge terminal – connector – plug – stator-side lead – winding end.
  const plug = [nodes++, nodes++, nodes++] as [number, number, number];
  const ends = [0, 1, 2].map((k) => {
    resistor(plug[k]!, k, bridge.legOpen[k] ? PARTED_OHMS : harness.phaseOhms[k]!);
    const side = harness.leadOpen[k] ? PARTED_OHMS : harness.statorSideOhms[k]!;
    if (side <= LEAST_OHMS) return plug[k]!;
    const end = nodes++;
    resistor(end, plug[k]!, side);
    return end;
  });
  const coil = (
    from: number,
    to: number,
    winding: number,
    share: number,
    henry = alternator.windingHenry * share,
  ): number => coils.push({ from, to, winding, share, ohms: hot * share, henry }) - 1;

  const winding = (k: number, from: number, to: number) => {
    if (alternator.windingOpen[k]) {
      resistor(from, to, PARTED_OHMS);
      return;
    }
    const short = alternator.turnShort;
    const touch = alternator.groundLeak;
    if (touch?.winding === k) {
      const position = Math.min(Math.max(touch.position, 1e-3), 1 - 1e-3);
      const tap = nodes++;
      coil(from, tap, k, position);
      coil(tap, to, k, 1 - position);
      leak = { node: tap, ohms: Math.max(touch.ohms, 1e-3) };
    } else if (short?.winding === k && short.teethShare * short.turnShare > 1e-6) {
      // Sound teeth; on the damaged teeth, sound and shorted turns are coupled through the iron.
      const teeth = Math.min(short.teethShare, 1 - 1e-6);
      const turns = Math.min(short.turnShare, 1 - 1e-6);
      const join = nodes++;
      const before = nodes++;
      const henry = alternator.windingHenry * teeth;
      coil(from, join, k, 1 - teeth);
      const sound = coil(join, before, k, teeth * (1 - turns), henry * (1 - turns) ** 2);
      const shorted = coil(before, to, k, teeth * turns, henry * turns ** 2);
      mutual.push({ first: sound, second: shorted, henry: short.coupling * henry * turns * (1 - turns) });
      inStator.push(resistor(before, to, short.ohms));
    } else {
      coil(from, to, k, 1);
    }
  };

  if (alternator.kind === "single-phase full-wave") winding(0, ends[0]!, ends[1]!);
  else if (alternator.kind === "single-phase half-wave") winding(0, ends[0]!, GROUND);
  else if (alternator.connection === "wye") {
    const neutral = nodes++;
    for (let k = 0; k < 3; k++) winding(k, ends[k]!, neutral);
  } else {
    for (let k = 0; k < 3; k++) winding(k, ends[k]!, ends[(k + 1) % 3]!);
  }
  return { coils, mutual, resistors, nodes, plug, inStator, ...(leak ? { leak } : {}) };
}

/** The regulator's ground terminal: reference of all node voltages. */
export const GROUND = -1;

/** Peak of one winding's fundamental emf [V]. */
export function windingPeakVolts(alternator: Alternator, rpm: number): number {
  const lineRms = (alternator.emfPerKrpm * alternator.emfScale * rpm) / 1000;
  const threePhase = alternator.kind === "three-phase" || alternator.kind === "field-excited";
  return (lineRms * Math.SQRT2) / (threePhase && alternator.connection === "wye" ? Math.sqrt(3) : 1);
}

/** Which of the six devices exist: a full-wave machine has two legs, a half-wave machine one upper device. */
export function legsOf(kind: AlternatorKind): { readonly upper: Triple<boolean>; readonly lower: Triple<boolean> } {
  if (kind === "single-phase full-wave") return { upper: [true, true, false], lower: [true, true, false] };
  if (kind === "single-phase half-wave") return { upper: [true, false, false], lower: [false, false, false] };
  return { upper: [true, true, true], lower: [true, true, true] };
}
