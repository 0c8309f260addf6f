import type { Part } from "../readings/types";
import type { Use } from "./price-list";

/** What one way of putting a fault right calls for. */
export interface Repair {
  /** Name of the alternative, as the customer reads it. */
  readonly name: string;
  readonly operation: string;
  /** Working hours of one technician, common practice; the shop's own hours go before. */
  readonly hours: number;
  /** The part itself, where one is changed. */
  readonly part?: Use;
  /** What goes with it; an absent price is named, never invented. */
  readonly companions: readonly { readonly use: Use; readonly quantity: number; readonly needed: boolean }[];
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
      companions: [
        { use: "terminal", quantity: 1, needed: true },
        { use: "grease", quantity: 1, needed: false },
      ],
    },
    {
      name: "Replace the cable run",
      operation: "replace cable run",
      hours: 1.2,
      companions: [
        { use: "cable", quantity: 1, needed: true },
        { use: "terminal", quantity: 2, needed: true },
        { use: "fuse", quantity: 1, needed: false },
      ],
    },
    {
      name: "Replace the main fuse and find why it blew",
      operation: "replace main fuse",
      hours: 0.5,
      companions: [{ use: "fuse", quantity: 1, needed: true }],
    },
  ],
  load: [
    {
      name: "Trace the drain and stop it",
      operation: "trace drain",
      hours: 1,
      companions: [
        { use: "connector", quantity: 1, needed: false },
        { use: "fuse", quantity: 1, needed: false },
      ],
    },
    {
      name: "Take off the added load",
      operation: "take off added load",
      hours: 0.5,
      companions: [{ use: "connector", quantity: 1, needed: false }],
    },
  ],
};

/** The ways in which a fault of this part is put right, the usual one first. */
export function repairsOf(part: Part): readonly Repair[] {
  return REPAIRS[part];
}
