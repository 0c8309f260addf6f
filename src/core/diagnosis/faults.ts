import type { Part } from "../readings/types";

/**
 * What can be wrong with a charging system, in the technician's words. `healthy` is a finding like
 * any other: "no fault found" is a verdict.
 */
export const FAULT_IDS = [
  "healthy",
  "battery-sulfated",
  "battery-shorted-cell",
  "parasitic-drain",
  "excessive-load",
  "regulator-overcharge",
  "regulator-shunt-stuck-one-phase",
  "regulator-shunt-stuck-all-phases",
  "regulator-series-no-fire",
  "diode-open",
  "diode-shorted",
  "diode-leg-open",
  "regulator-leaks",
  "stator-turns-shorted",
  "stator-phase-open",
  "stator-ground-leak",
  "rotor-demagnetised",
  "high-resistance-bplus",
  "high-resistance-ground",
  "high-resistance-phase",
  "main-fuse-blown",
  "joint-fails-hot",
] as const;
export type FaultId = (typeof FAULT_IDS)[number];

export interface Fault {
  readonly id: FaultId;
  /** The part that is replaced or mended; `null` for healthy. */
  readonly part: Part | null;
  /** Short name, sentence case. */
  readonly label: string;
}

const fault = (id: FaultId, part: Part | null, label: string): Fault => ({ id, part, label });

export const FAULTS: readonly Fault[] = [
  // Every reading fits a machine in order.
  fault("healthy", null, "No fault found"),
  // High inner resistance: it sags under load and takes little charge. A lithium battery does not sulfate, it wears.
  fault("battery-sulfated", "battery", "Worn or sulfated battery"),
  // One cell gives nothing: about 2 V are missing at rest and under load.
  fault("battery-shorted-cell", "battery", "Shorted battery cell"),
  // Something draws current with the key off and empties the battery.
  fault("parasitic-drain", "load", "Key-off drain"),
  // The consumers draw more than the alternator can give.
  fault("excessive-load", "load", "Too much load"),
  // The regulator lets the voltage rise above its limit.
  fault("regulator-overcharge", "regulator-rectifier", "Regulator overcharges"),
  // One shunt device stays on and swallows its phase.
  fault("regulator-shunt-stuck-one-phase", "regulator-rectifier", "Regulator shorts one phase all the time"),
  // All shunt devices stay on: no output at any speed.
  fault("regulator-shunt-stuck-all-phases", "regulator-rectifier", "Regulator shorts all phases all the time"),
  // The series devices stay off: the stator's output never reaches the battery.
  fault("regulator-series-no-fire", "regulator-rectifier", "Regulator never fires"),
  // One half-wave of one phase is missing.
  fault("diode-open", "regulator-rectifier", "One open rectifier device"),
  // One device conducts both ways and ties its phase to one side.
  fault("diode-shorted", "regulator-rectifier", "One shorted or leaking rectifier device"),
  // Both devices of one phase are gone, or its terminal is open inside.
  fault("diode-leg-open", "regulator-rectifier", "One rectifier leg open"),
  // Current passes from B+ to ground or to the case inside the unit.
  fault("regulator-leaks", "regulator-rectifier", "Regulator-rectifier leaks inside"),
  // Some turns of one winding are joined: less output on one phase, and heat.
  fault("stator-turns-shorted", "stator", "Shorted turns in the stator"),
  // One winding or its lead is broken.
  fault("stator-phase-open", "stator", "Open stator winding or lead"),
  // A winding touches the iron.
  fault("stator-ground-leak", "stator", "Stator winding to ground"),
  // The magnets (or the field winding) give too little flux: low output on all phases alike.
  fault("rotor-demagnetised", "rotor", "Weak rotor"),
  // A bad joint or lead between the regulator's B+ and the battery.
  fault("high-resistance-bplus", "wiring", "Resistance in the B+ run"),
  // A bad joint or lead between the battery's negative and the regulator's ground.
  fault("high-resistance-ground", "wiring", "Resistance in the ground run"),
  // A burnt contact in the stator plug or a phase lead.
  fault("high-resistance-phase", "wiring", "Resistance in a phase connector"),
  // Nothing that the regulator makes can reach the battery.
  fault("main-fuse-blown", "wiring", "Main fuse or B+ lead open"),
  // In order cold; the resistance comes with heat or vibration.
  fault("joint-fails-hot", "wiring", "A joint that fails only when hot"),
];

const BY_ID = new Map(FAULTS.map((f) => [f.id, f]));

export function faultOf(id: FaultId): Fault {
  return BY_ID.get(id)!;
}

/** Pairs that happen together in practice; named "first+second", the weak battery or drain first. */
export type FaultKey = FaultId | `${FaultId}+${FaultId}`;

export function faultsOfKey(key: FaultKey): readonly FaultId[] {
  return key.split("+") as FaultId[];
}

export function labelOfKey(key: FaultKey): string {
  return faultsOfKey(key)
    .map((id, i) => (i === 0 ? faultOf(id).label : withinSentence(faultOf(id).label)))
    .join(" and ");
}

/** A label as it stands within a sentence: "B+" keeps its letter. */
export function withinSentence(label: string): string {
  return /^[A-Z][^a-z]/u.test(label) ? label : label.charAt(0).toLowerCase() + label.slice(1);
}
