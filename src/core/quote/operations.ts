import type { FaultId } from "../diagnosis/faults";
import type { Part } from "../readings/types";
import type { Use } from "./price-list";

export interface Companion {
  readonly use: Use;
  readonly quantity: number;
  readonly needed: boolean;
  /** Goes along only where one of these faults is known. */
  readonly only?: readonly FaultId[];
}

/** What one way of putting a fault right calls for. */
export interface Repair {
  /** Name of the alternative, as the customer reads it. */
  readonly name: string;
  readonly operation: string;
  /** Working hours of one technician, common practice; the shop's own hours go before. */
  readonly hours: number;
  /** The part itself, where one is changed. */
  readonly part?: Use;
  /** Faults that it puts right, the one it is made for first; every fault of the part where not given. */
  readonly mends?: readonly FaultId[];
  /** What goes with it; an absent price is named, never invented. */
  readonly companions: readonly Companion[];
}

const REPAIRS: Readonly<Record<Part, readonly Repair[]>> = {
  battery: [
    {
      name: "Replace battery",
      operation: "replace battery",
      hours: 0.4,
      part: "battery",
      companions: [
        { use: "hardware", quantity: 1, needed: false },
        { use: "grease", quantity: 1, needed: false },
      ],
    },
  ],
  "regulator-rectifier": [
    {
      name: "Replace regulator-rectifier",
      operation: "replace regulator-rectifier",
      hours: 0.8,
      part: "regulator-rectifier",
      companions: [
        { use: "connector", quantity: 1, needed: false },
        { use: "fuse", quantity: 1, needed: false },
        { use: "grease", quantity: 1, needed: false },
        { use: "hardware", quantity: 1, needed: false },
      ],
    },
  ],
  stator: [
    {
      name: "Replace stator",
      operation: "replace stator",
      hours: 2.5,
      part: "stator",
      companions: [
        { use: "gasket", quantity: 1, needed: true },
        { use: "connector", quantity: 1, needed: false },
        { use: "hardware", quantity: 1, needed: false },
      ],
    },
  ],
  rotor: [
    {
      name: "Replace rotor",
      operation: "replace rotor",
      hours: 3,
      part: "rotor",
      companions: [{ use: "gasket", quantity: 1, needed: true }],
    },
  ],
  wiring: [
    {
      name: "Renew the joint",
      operation: "renew joint",
      hours: 0.7,
      mends: ["high-resistance-bplus", "high-resistance-ground", "joint-fails-hot"],
      companions: [
        { use: "terminal", quantity: 1, needed: true },
        { use: "grease", quantity: 1, needed: false },
      ],
    },
    {
      name: "Replace the cable run",
      operation: "replace cable run",
      hours: 1.2,
      mends: ["high-resistance-bplus", "high-resistance-ground", "joint-fails-hot", "main-fuse-blown"],
      companions: [
        { use: "cable", quantity: 1, needed: true },
        { use: "terminal", quantity: 2, needed: true },
        // No fuse stands in a ground run.
        { use: "fuse", quantity: 1, needed: false, only: ["high-resistance-bplus", "main-fuse-blown"] },
      ],
    },
    {
      name: "Replace the main fuse and find why it blew",
      operation: "replace main fuse",
      hours: 0.5,
      mends: ["main-fuse-blown"],
      companions: [{ use: "fuse", quantity: 1, needed: true }],
    },
    {
      name: "Renew the phase connector",
      operation: "renew phase connector",
      hours: 0.8,
      mends: ["high-resistance-phase", "joint-fails-hot"],
      companions: [
        { use: "connector", quantity: 1, needed: true },
        { use: "grease", quantity: 1, needed: false },
      ],
    },
  ],
  load: [
    {
      name: "Trace the drain and stop it",
      operation: "trace drain",
      hours: 1,
      mends: ["parasitic-drain"],
      companions: [
        { use: "connector", quantity: 1, needed: false },
        { use: "fuse", quantity: 1, needed: false },
      ],
    },
    {
      name: "Take off the added load",
      operation: "take off added load",
      hours: 0.5,
      mends: ["excessive-load"],
      companions: [{ use: "connector", quantity: 1, needed: false }],
    },
  ],
};

/** What a shop may set hours of its own for. */
export const OPERATIONS: ReadonlySet<string> = new Set(
  Object.values(REPAIRS).flatMap((ways) => ways.map(({ operation }) => operation)),
);

/**
 * The ways in which a part is put right, the usual one first.
 *
 * @param faults - What is wrong with it, likeliest first; every way where nothing is known of that
 */
export function repairsOf(part: Part, faults: readonly FaultId[] = []): readonly Repair[] {
  if (faults.length === 0) return REPAIRS[part];
  const madeForIt = ({ mends }: Repair) => Number(mends?.[0] === faults[0]);
  return REPAIRS[part]
    .filter(({ mends }) => mends === undefined || mends.some((id) => faults.includes(id)))
    .sort((a, b) => madeForIt(b) - madeForIt(a));
}

/** True where the way to put a part right depends on what is wrong with it. */
export function dependsOnFault(part: Part): boolean {
  return REPAIRS[part].some(({ mends }) => mends !== undefined);
}
