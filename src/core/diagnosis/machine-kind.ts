import type { Frame } from "./frame";

/** A single-phase machine has one winding with two ends: one pair to read where the tables have three. */
export function hasOnePair({ alternator }: Pick<Frame, "alternator">): boolean {
  return alternator === "single-phase" || alternator === "half-wave";
}

/** A half-wave winding ends on the iron by design: a path to ground is no fault there. */
export function isGroundedByDesign({ alternator }: Pick<Frame, "alternator">): boolean {
  return alternator === "half-wave";
}

/** Checks of what makes and rectifies the current: of a kind that is not known they say nothing. */
export const GENERATING = /^running-|-ac$|^winding|^insulation|^rotor|^diode|short$|leakage$|^phase/u;
