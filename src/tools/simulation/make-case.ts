import { faultOf, type FaultId } from "../../core/diagnosis/faults";
import { COMMON, LARGE, SMALL, WIDE, type MachineRanges } from "./machine";
import { Random } from "./random";
import { skipSome, type Values } from "./readings";
import { simulateOne } from "./simulate-one";

export const RANGES: Readonly<Record<string, MachineRanges>> = {
  wide: WIDE,
  common: COMMON,
  small: SMALL,
  large: LARGE,
};

/** Checks that can reveal a fault; where none was taken no method can know. */
const REVEALING: Readonly<Partial<Record<FaultId, readonly string[]>>> = {
  "battery-sulfated": ["load-test", "cranking"],
  "battery-shorted-cell": ["battery-at-rest", "cranking", "load-test"],
  "parasitic-drain": ["key-off-draw"],
  "excessive-load": ["key-on-load"],
  "regulator-overcharge": ["test-voltage"],
  "regulator-shunt-stuck-one-phase": ["no-load-ac", "loaded-ac", "diode-check"],
  "regulator-shunt-stuck-all-phases": ["no-load-ac", "test-voltage"],
  "regulator-series-no-fire": ["no-load-ac", "test-voltage"],
  "diode-open": ["diode-check"],
  "diode-shorted": ["diode-check"],
  "diode-leg-open": ["diode-check"],
  "stator-turns-shorted": ["no-load-ac"],
  "stator-phase-open": ["winding-ohms", "no-load-ac"],
  "stator-ground-leak": ["winding-to-ground"],
  "rotor-demagnetised": ["no-load-ac"],
  "high-resistance-bplus": ["bplus-drop"],
  "high-resistance-ground": ["ground-drop"],
  "high-resistance-phase": ["winding-ohms", "loaded-ac"],
  "main-fuse-blown": ["bplus-drop"],
};

/** Rare ones, and one that the readings of a job file cannot tell from a drain elsewhere. */
export const ONLY_WHEN_ASKED: ReadonlySet<FaultId> = new Set(["joint-fails-hot", "main-fuse-blown", "regulator-leaks"]);

/** One job to make: its faults and its own seed. */
export interface Task {
  readonly faults: readonly FaultId[];
  readonly seed: number;
}
/** A job with its known fault, as it stands in a job file. */
export interface Case {
  readonly caseId: string;
  readonly values: Values;
  readonly truth: {
    readonly faultId: string;
    readonly faultComponent: string;
    readonly variant: string;
    readonly regulator: string;
    readonly allKeyTestsMissing: boolean;
  };
}

const underscored = (id: string) => id.replaceAll("-", "_");

/** @param whole - Every check taken, the whole plate known */
export function makeCase(task: Task, ranges: MachineRanges, whole: boolean): Case {
  const job = simulateOne(task.faults, ranges, task.seed, whole);
  const { values, taken } = whole
    ? { values: job.values, taken: undefined }
    : skipSome(job.values, new Random(task.seed ^ 0x5bd1e995));
  const revealing = task.faults.flatMap((f) => REVEALING[f] ?? []);
  const parts = task.faults.map((f) => faultOf(f).part).filter((p) => p !== null);
  return {
    caseId: `sim-${task.seed}`,
    values,
    truth: {
      faultId: task.faults.map(underscored).join("+"),
      faultComponent: parts.length === 0 ? "none" : underscored(parts.at(-1)!),
      variant: job.variant,
      regulator: job.regulator,
      allKeyTestsMissing: taken !== undefined && revealing.length > 0 && !revealing.some((r) => taken.has(r)),
    },
  };
}

/** Seeds for every fault; healthy comes twice as often as each, as in a shop that hears many complaints. */
export function tasksFor(keys: readonly string[], perFault: number, seed: number, whole: boolean): readonly Task[] {
  const base = new Random(seed);
  return keys.flatMap((key) => {
    const faults = key.split("+") as FaultId[];
    const count = perFault * (key === "healthy" && !whole ? 2 : 1);
    return Array.from({ length: count }, () => ({ faults, seed: Math.floor(base.next() * 2 ** 31) }));
  });
}
