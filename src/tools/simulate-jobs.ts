import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import { FAULT_IDS } from "../core/diagnosis/faults";
import { makeCase, ONLY_WHEN_ASKED, RANGES, tasksFor, type Case, type Task } from "./simulation/make-case";

/**
 * Makes jobs with known faults from our own circuit: draws machines, solves them, reads them with
 * noisy meters, leaves checks out as a technician does. The same seed gives the same file.
 *
 *   node -r ./.config/typescript.cjs src/tools/simulate-jobs.ts --out FILE [--ranges wide] [--per-fault 50]
 *        [--seed 1] [--workers 1] [--whole] [--faults a,b+c]
 *
 * --whole takes every check and knows the whole plate (for fitting); without it checks are skipped.
 */
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
  const tasks = tasksFor(keys, Number(values["per-fault"]), Number(values.seed), values.whole);
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
