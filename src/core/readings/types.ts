import type { CautionId } from "./cautions";
import type { Unit } from "./units";

/**
 * A reading as the technician took it. `resolution` is the last digit that was written down, in the
 * reading's own unit, when the value came as text; it bounds what the meter could show. A speed that was only
 * `told` by the labels of other readings gives way to any that was read or is known.
 */
export type Measured =
  | {
      readonly kind: "number";
      readonly value: number;
      readonly resolution?: number;
      readonly note?: string;
      readonly told?: true;
    }
  /** Over-range on the display: `OL`, `open`, `∞`. */
  | { readonly kind: "overload"; readonly note?: string }
  /** Known only to lie above (`>50M`) or below (`<0.1`) a value. */
  | { readonly kind: "above" | "below"; readonly value: number; readonly note?: string }
  | { readonly kind: "choice"; readonly value: string; readonly note?: string }
  | { readonly kind: "text"; readonly value: string };

/** Which of the engine's states a reading is taken in. */
export type EngineState = "off" | "key on, engine off" | "cranking" | "idle" | "test speed" | "bench";

/** Stages of the job, in working order. */
export const STAGES = [
  "intake",
  "machine",
  "battery",
  "key-off draw",
  "running voltage",
  "output",
  "regulator-rectifier",
  "wiring",
  "loads",
] as const;
export type Stage = (typeof STAGES)[number];

/** A part a verdict can name. */
export const PARTS = ["battery", "regulator-rectifier", "stator", "rotor", "wiring", "load"] as const;
export type Part = (typeof PARTS)[number];

interface EntryBase {
  /** Stable id: kebab-case trade words; what templates, files and functions refer to. */
  readonly id: string;
  /** Label on sheets and in the pane, sentence case, without unit. */
  readonly label: string;
  /** Other names that headers and label cells use (English, Spanish, French, German). */
  readonly synonyms?: readonly string[];
  readonly stage: Stage;
  /** Step of the work the reading belongs to; readings of one check are taken together. */
  readonly check?: string;
}

/** A number with a unit. */
export interface QuantityEntry extends EntryBase {
  readonly kind: "quantity";
  readonly unit: Unit;
  /** Plausible range, inclusive, in `unit`: outside it the reading is refused as impossible. */
  readonly min: number;
  readonly max: number;
  /** True where a display may show over-range and that means something. */
  readonly overload?: boolean;
  /** Decimals to show. */
  readonly decimals: number;
  /** Meter function that takes it; ranges and accuracy are looked up by it. */
  readonly meter?: MeterFunction;
}

/** One of a few words. */
export interface ChoiceEntry extends EntryBase {
  readonly kind: "choice";
  readonly choices: readonly {
    readonly value: string;
    readonly label: string;
    readonly synonyms?: readonly string[];
  }[];
}

/** Free text kept as typed. */
export interface TextEntry extends EntryBase {
  readonly kind: "text";
}

export type Entry = QuantityEntry | ChoiceEntry | TextEntry;

export type MeterFunction =
  | "dc volts"
  | "ac volts"
  | "ohms"
  | "megohms"
  | "diode"
  | "clamp amps"
  | "milliamps"
  | "temperature"
  | "hydrometer"
  | "tachometer"
  | "clock";

/** A step of the work that yields one or more readings. */
export interface Check {
  readonly id: string;
  readonly label: string;
  readonly stage: Stage;
  readonly engine: EngineState;
  /** Working minutes for one technician who has the tools at hand. */
  readonly minutes: number;
  readonly tools: readonly string[];
  readonly cautions: readonly CautionId[];
}

/** All that is known of one machine's job: readings and machine data by catalogue id. */
export type Job = ReadonlyMap<string, Measured>;
