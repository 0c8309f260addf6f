import { entryOf } from "../readings/catalogue";
import type { Job, Measured } from "../readings/types";
import { signed } from "../signed";
import type { Frame } from "./frame";

/** Readings that cannot all be true, or say nothing yet as they were taken; named before anything is made of them. */
export interface Contradiction {
  readonly kind:
    "wrong range" | "speed mistyped" | "leads swapped" | "cannot both be true" | "machine data" | "taken too early";
  /** Catalogue ids of the readings concerned. */
  readonly readings: readonly string[];
  /** What is odd, with the numbers, and what to do. */
  readonly words: string;
  /** Readings that are left out of the weighing until they are taken again. */
  readonly setAside: readonly string[];
  /** Readings that are weighed as something else than they stand: rows exchanged. */
  readonly readAs?: ReadonlyMap<string, Measured>;
}

export type ContradictionCheck = (job: Job, frame: Frame) => Contradiction | undefined;

/** A number to so many digits at most. */
export const n = (value: number, digits = 2) => signed(String(Number(value.toFixed(digits))));
export const label = (id: string) => entryOf(id)?.label ?? id;
