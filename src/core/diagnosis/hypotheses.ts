import type { OutputState } from "./no-load-evidence";
import type { RectifierState } from "./diode-evidence";
import type { FaultId, FaultKey } from "./faults";
import type { WindingState } from "./winding-evidence";
import { numberRow } from "./number-row";

/**
 * One way in which a fault can be: its size or place where that matters. Each check sees a hypothesis
 * as one of the few states that it can tell apart.
 */
export interface Hypothesis {
  readonly fault: FaultKey;
  readonly variant: string;
  /** Share among the variants of its fault. */
  readonly share: number;
  readonly rectifier: RectifierState;
  readonly winding: WindingState;
  readonly output: OutputState;
  readonly ground: "clear" | "leak";
  readonly draw: "normal" | "high";
  readonly unit: "tight" | "leaks";
  readonly cells: "alike" | "one gone" | "one weak";
  /** Whether the voltage at speed stays within the regulated limit. */
  readonly limit: "holds" | "exceeds";
  readonly connector: "sound" | "burnt";
  /** Name of the signature of battery and running readings. */
  readonly running: string;
  /** The kind of regulator it can happen on; both where not given. */
  readonly regulator?: "shunt" | "series";
}

/** A hypothesis on a machine with one kind of regulator: what the chances are over. */
export interface Placed extends Hypothesis {
  readonly kind: "shunt" | "series";
}

type Changes = Partial<Omit<Hypothesis, "fault">>;

const SOUND = {
  rectifier: "good",
  winding: "good",
  output: "good",
  ground: "clear",
  draw: "normal",
  unit: "tight",
  cells: "alike",
  limit: "holds",
  connector: "sound",
} as const;

function variants(
  fault: FaultId,
  list: readonly (Changes & { readonly variant: string; readonly share: number })[],
): readonly Hypothesis[] {
  return list.map((changes) => ({
    ...SOUND,
    fault,
    running: changes.variant === "" ? fault : `${fault}/${changes.variant}`,
    ...changes,
  }));
}
const only = (fault: FaultId, changes: Changes = {}) => variants(fault, [{ variant: "", share: 1, ...changes }]);

/** Share of the machines in order whose battery is low all the same, as common as one found flat: a judgement, not a count. */
export const RUN_DOWN = 0.05;

export const SINGLES: readonly Hypothesis[] = [
  ...variants("healthy", [
    { variant: "", share: 1 - RUN_DOWN },
    // It stood, or was ridden too short: it reads as after a drain, without the drain.
    { variant: "run-down", share: RUN_DOWN, running: "parasitic-drain" },
  ]),
  ...only("battery-sulfated", { limit: "exceeds" }),
  ...variants("battery-shorted-cell", [
    { variant: "", share: 0.9, cells: "one gone" },
    // A cell that is merely weak sags as a sulfated battery does; the hydrometer alone tells it from one.
    { variant: "weak", share: 0.1, cells: "one weak", running: "battery-sulfated" },
  ]),
  ...only("parasitic-drain", { draw: "high" }),
  ...only("excessive-load"),
  ...only("regulator-overcharge", { limit: "exceeds" }),
  ...only("regulator-shunt-stuck-one-phase", { regulator: "shunt" }),
  ...only("regulator-shunt-stuck-all-phases", { regulator: "shunt" }),
  ...only("regulator-series-no-fire", { regulator: "series" }),
  ...variants("diode-open", [
    { variant: "upper", share: 0.45, rectifier: "upper-open", running: "diode-open" },
    { variant: "lower", share: 0.5, rectifier: "lower-open", running: "diode-open" },
    { variant: "masked", share: 0.05, rectifier: "open-masked", running: "diode-open" },
  ]),
  ...variants("diode-shorted", [
    { variant: "upper", share: 0.5, rectifier: "upper-shorted" },
    { variant: "lower", share: 0.5, rectifier: "lower-shorted" },
  ]),
  ...only("diode-leg-open", { rectifier: "leg-open" }),
  // Nothing of it shows while running: it charges, and with the key off it drains a little or is the drain.
  ...variants("regulator-leaks", [
    { variant: "little", share: 0.3, unit: "leaks", running: "parasitic-drain" },
    { variant: "much", share: 0.7, unit: "leaks", draw: "high", running: "parasitic-drain" },
  ]),
  ...variants("stator-turns-shorted", [
    { variant: "few", share: 0.34, winding: "turns-few", output: "turns-few" },
    { variant: "some", share: 0.33, winding: "turns-some", output: "turns-some" },
    { variant: "many", share: 0.33, winding: "turns-many", output: "turns-many" },
  ]),
  ...variants("stator-phase-open", [
    { variant: "lead", share: 0.65, winding: "lead-open", output: "lead-open" },
    { variant: "delta-winding", share: 0.35, winding: "delta-winding-open" },
  ]),
  ...only("stator-ground-leak", { ground: "leak" }),
  ...variants("rotor-demagnetised", [
    { variant: "little", share: 0.2, output: "weak-little" },
    { variant: "half", share: 0.45, output: "weak-half" },
    { variant: "much", share: 0.35, output: "weak-much" },
  ]),
  ...only("high-resistance-bplus"),
  ...only("high-resistance-ground"),
  ...variants("high-resistance-phase", [
    { variant: "stator-side", share: 0.5, winding: "joint", connector: "burnt", running: "high-resistance-phase" },
    { variant: "regulator-side", share: 0.5, connector: "burnt", running: "high-resistance-phase" },
  ]),
  ...only("main-fuse-blown"),
  ...only("joint-fails-hot"),
];

/**
 * Two at once, for the pairs that happen: a weak battery or a drain with anything else, a burnt phase
 * connector with a burnt stator. Each is its second fault with the first one's marks on top.
 */
export const DOUBLES: readonly Hypothesis[] = [
  ...pairs("battery-sulfated", (h) => h.fault !== "battery-shorted-cell" && h.fault !== "joint-fails-hot", {
    limit: "exceeds",
  }),
  ...pairs("parasitic-drain", (h) => h.fault !== "joint-fails-hot", { draw: "high" }),
  ...pairs(
    "high-resistance-phase",
    (h) => ["stator-turns-shorted", "stator-phase-open", "stator-ground-leak"].includes(h.fault),
    { connector: "burnt" },
  ),
];

function pairs(first: FaultId, with_: (h: Hypothesis) => boolean, marks: Changes): readonly Hypothesis[] {
  return SINGLES.filter(
    (h) =>
      h.fault !== "healthy" &&
      h.fault !== first &&
      with_(h) &&
      !(first === "parasitic-drain" && h.fault === "battery-sulfated"),
  ).map((h) => ({
    ...h,
    ...marks,
    fault: `${first}+${h.fault as FaultId}` as const,
    // A drain shows with the key off only: running, the machine is that of the second fault.
    running: first === "parasitic-drain" ? h.running : `${first}+${h.running}`,
  }));
}

const KINDS = ["shunt", "series"] as const;

/** Every fault, then every pair, in a fixed order: what sums of chances are kept by. */
export const FAULT_KEYS: readonly FaultKey[] = [...new Set([...SINGLES, ...DOUBLES].map((h) => h.fault))];
const KEY_INDEX = new Map(FAULT_KEYS.map((key, i) => [key, i]));

export function keyIndex(key: FaultKey): number {
  return KEY_INDEX.get(key) ?? -1;
}

/** Every hypothesis on every kind of regulator it can happen on. */
export const HYPOTHESES: readonly Placed[] = [...SINGLES, ...DOUBLES].flatMap((h) =>
  KINDS.filter((kind) => h.regulator === undefined || h.regulator === kind).map((kind) => ({ ...h, kind })),
);

/** Index of each hypothesis' fault in `FAULT_KEYS`. */
export const KEY_OF_HYPOTHESIS = Int32Array.from(HYPOTHESES, (h) => keyIndex(h.fault));

/** Chances of faults and pairs from those of hypotheses, in the order of `FAULT_KEYS`. */
export function sumByFault(hypotheses: Float64Array): Float64Array {
  const chances = numberRow(FAULT_KEYS.length);
  for (let i = 0; i < hypotheses.length; i++)
    chances[KEY_OF_HYPOTHESIS[i]!] = chances[KEY_OF_HYPOTHESIS[i]!]! + hypotheses[i]!;
  return chances;
}

const RUN_DOWN_PLACES = HYPOTHESES.flatMap((h, i) => (h.variant === "run-down" ? [i] : []));

/** Chance of a machine in order with its battery run down. */
export function runDownIn(hypotheses: Float64Array): number {
  return RUN_DOWN_PLACES.reduce((sum, i) => sum + hypotheses[i]!, 0);
}
