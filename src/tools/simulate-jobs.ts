import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import { FAULT_IDS, faultOf, type FaultId } from "../core/diagnosis/faults";
import { COMMON, LARGE, SMALL, WIDE, type MachineRanges } from "./simulation/machine";
import { Random } from "./simulation/random";
import { skipSome, type Values } from "./simulation/readings";
import { simulateOne } from "./simulation/simulate-one";

/**
 * Makes jobs with known faults from our own circuit: draws machines, solves them, reads them with
 * noisy meters, leaves checks out as a technician does. The same seed gives the same file.
 *
 *   node -r ./.config/typescript.cjs src/tools/simulate-jobs.ts --out FILE [--ranges wide] [--per-fault 50]
 *        [--seed 1] [--workers 1] [--whole] [--faults a,b+c]
 *
 * --whole takes every check and knows the whole plate (for fitting); without it checks are skipped.
 */
const RANGES: Readonly<Record<string, MachineRanges>> = { wide: WIDE, common: COMMON, small: SMALL, large: LARGE };

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
const ONLY_WHEN_ASKED: ReadonlySet<FaultId> = new Set(["joint-fails-hot", "main-fuse-blown", "regulator-leaks"]);

interface Task {
  readonly faults: readonly FaultId[];
  readonly seed: number;
}
interface Case {
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

function makeCase(task: Task, ranges: MachineRanges, whole: boolean): Case {
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

function run(): void {
  const { values } = parseArgs({
    options: {
      out: { type: "string" },
      ranges: { type: "string", default: "wide" },
      "per-fault": { type: "string", default: "50" },
      seed: { type: "string", default: "1" },
      workers: { type: "string", default: "1" },
      whole: { type: "boolean", default: false },
      faults: { type: "string" },
    },
  });
  if (values.out === undefined || !(values.ranges in RANGES))
    throw new Error(`--out FILE and --ranges ${Object.keys(RANGES).join("|")}`);
  const keys = values.faults?.split(",") ?? FAULT_IDS.filter((id) => !ONLY_WHEN_ASKED.has(id));
  const tasks: Task[] = [];
  const base = new Random(Number(values.seed));
  for (const key of keys) {
    const faults = key.split("+") as FaultId[];
    // Healthy comes twice as often as each fault, as in a shop that hears many complaints.
    const count = Number(values["per-fault"]) * (key === "healthy" && !values.whole ? 2 : 1);
    for (let i = 0; i < count; i++) tasks.push({ faults, seed: Math.floor(base.next() * 2 ** 31) });
  }
  const workers = Number(values.workers);
  const cases = new Array<Case>(tasks.length);
  let left = workers;
  for (let w = 0; w < workers; w++) {
    const mine = tasks.map((task, i) => ({ task, i })).filter(({ i }) => i % workers === w);
    const worker = new Worker(__filename, {
      workerData: { mine, ranges: values.ranges, whole: values.whole },
      execArgv: process.execArgv,
    });
    worker.on("message", ({ i, made }: { i: number; made: Case }) => (cases[i] = made));
    worker.on("error", (error) => {
      throw error;
    });
    worker.on("exit", () => {
      left -= 1;
      if (left === 0)
        writeFileSync(values.out!, `{"cases":[\n${cases.map((c) => JSON.stringify(c)).join(",\n")}\n]}\n`);
    });
  }
}

if (isMainThread) {
  if (require.main === module) run();
} else {
  const { mine, ranges, whole } = workerData as { mine: { task: Task; i: number }[]; ranges: string; whole: boolean };
  for (const { task, i } of mine) parentPort!.postMessage({ i, made: makeCase(task, RANGES[ranges]!, whole) });
}
