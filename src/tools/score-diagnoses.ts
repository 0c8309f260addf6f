import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { CHECKS } from "../core/readings/checks";
import { checkOf, entryOf, isReading } from "../core/readings/catalogue";
import { jobsFromFile, type FiledJob } from "../core/readings/from-job-file";
import type { Job } from "../core/readings/types";
import { checksTaken } from "../core/diagnosis/checks-taken";
import { diagnose, type Diagnosis } from "../core/diagnosis/diagnose";
import { FAULT_IDS, faultOf, faultsOfKey } from "../core/diagnosis/faults";
import { nextChecks } from "../core/diagnosis/next-check";
import { faultMessage } from "../core/result";

/**
 * Scores verdicts against the known faults of simulated jobs: how often right, how true the chances
 * are, good parts condemned, and the minutes of work that following the next check takes.
 *
 *   node -r ./.config/typescript.cjs src/tools/score-diagnoses.ts --jobs FILE[,FILE] [--minutes]
 *
 * --minutes wants jobs on which every check was taken (simulate-jobs.ts --whole).
 */
export interface Truth {
  readonly faultId: string;
  readonly allKeyTestsMissing?: boolean;
}
export interface KnownJob extends FiledJob {
  readonly truth: Truth;
}

/** Parts that are bought anew; wiring and loads are mended. */
const REPLACED = new Set(["battery", "regulator-rectifier", "stator", "rotor"]);

export interface Score {
  readonly jobs: number;
  readonly rightFaultFirst: number;
  readonly rightWhereRevealed: number;
  readonly rightPart: number;
  readonly brier: number;
  readonly logLoss: number;
  readonly calibrationError: number;
  readonly jobsWithGoodPartCalledFaulty: number;
  /** Of the replaceable parts that are faulty and on which a revealing check was taken. */
  readonly faultyCalledFaulty: number;
  readonly faultyCalledServiceable: number;
  /** Of the replaceable parts that are good. */
  readonly goodCalledServiceable: number;
  /** Chance of the leading fault in tenths: jobs, mean chance, share right. */
  readonly reliability: readonly { readonly jobs: number; readonly chance: number; readonly right: number }[];
  readonly confusion: Readonly<Record<string, number>>;
}

export function scoreOf(jobs: readonly KnownJob[]): Score {
  const bins = Array.from({ length: 10 }, () => ({ jobs: 0, chance: 0, right: 0 }));
  const confusion: Record<string, number> = {};
  const count = {
    right: 0,
    revealed: 0,
    rightRevealed: 0,
    part: 0,
    brier: 0,
    log: 0,
    condemned: 0,
    faulty: 0,
    called: 0,
    cleared: 0,
    good: 0,
    goodCleared: 0,
  };
  for (const { job, truth } of jobs) {
    const answer = diagnose(job);
    const chances = singleChances(answer);
    const trueFaults = truth.faultId.split("+").map((id) => id.replaceAll("_", "-"));
    const order = [...chances].sort((a, b) => b[1] - a[1]);
    const [first, chance] = order[0]!;
    const right = trueFaults.includes(first);
    count.right += right ? 1 : 0;
    if (truth.allKeyTestsMissing !== true) {
      count.revealed += 1;
      count.rightRevealed += right ? 1 : 0;
    }
    if (!right) confusion[`${truth.faultId} → ${first}`] = (confusion[`${truth.faultId} → ${first}`] ?? 0) + 1;
    for (const [fault, c] of chances)
      count.brier += (c - (trueFaults.includes(fault) ? 1 / trueFaults.length : 0)) ** 2;
    count.log -= Math.log(
      Math.max(
        1e-6,
        trueFaults.reduce((sum, f) => sum + (chances.get(f) ?? 0), 0),
      ),
    );
    const bin = bins[Math.min(9, Math.floor(chance * 10))]!;
    bin.jobs += 1;
    bin.chance += chance;
    bin.right += right ? 1 : 0;
    const parts = new Map<string, number>();
    for (const [fault, c] of chances) {
      const part = faultOf(fault as "healthy").part ?? "none";
      parts.set(part, (parts.get(part) ?? 0) + c);
    }
    const trueParts = trueFaults.map((f) => faultOf(f as "healthy").part ?? "none");
    count.part += trueParts.includes([...parts].sort((a, b) => b[1] - a[1])[0]![0] as "battery") ? 1 : 0;
    const states = (answer?.parts ?? []).filter((p) => REPLACED.has(p.part));
    if (states.some((p) => p.state === "faulty" && !trueParts.includes(p.part))) count.condemned += 1;
    for (const p of states.filter((s) => !trueParts.includes(s.part))) {
      count.good += 1;
      if (p.state === "serviceable") count.goodCleared += 1;
    }
    for (const p of states.filter((s) => trueParts.includes(s.part))) {
      if (p.state === "serviceable") count.cleared += 1;
      if (truth.allKeyTestsMissing === true) continue;
      count.faulty += 1;
      if (p.state === "faulty") count.called += 1;
    }
  }
  const n = jobs.length;
  const share = (part: number, of: number) => (of === 0 ? 0 : round(part / of));
  return {
    jobs: n,
    rightFaultFirst: share(count.right, n),
    rightWhereRevealed: share(count.rightRevealed, count.revealed),
    rightPart: share(count.part, n),
    brier: share(count.brier, n),
    logLoss: share(count.log, n),
    calibrationError: share(
      bins.reduce((sum, b) => sum + Math.abs(b.chance - b.right), 0),
      n,
    ),
    jobsWithGoodPartCalledFaulty: share(count.condemned, n),
    faultyCalledFaulty: share(count.called, count.faulty),
    faultyCalledServiceable: count.cleared,
    goodCalledServiceable: share(count.goodCleared, count.good),
    reliability: bins.map((b) => ({ jobs: b.jobs, chance: share(b.chance, b.jobs), right: share(b.right, b.jobs) })),
    confusion: Object.fromEntries(
      Object.entries(confusion)
        .sort((a, b) => b[1] - a[1])
        .slice(0, 25),
    ),
  };
}

/** Chances of single faults; two at once count half for each. */
function singleChances(answer: Diagnosis | undefined): ReadonlyMap<string, number> {
  const chances = new Map<string, number>(FAULT_IDS.map((id) => [id, answer ? 0 : 1 / FAULT_IDS.length]));
  for (const { fault, chance } of answer?.faults ?? []) {
    const ids = faultsOfKey(fault);
    for (const id of ids) chances.set(id, chances.get(id)! + chance / ids.length);
  }
  return chances;
}

const round = (value: number) => Math.round(value * 1e4) / 1e4;

export interface Minutes {
  readonly jobs: number;
  /** Following the next check from an empty sheet until it settles or nothing more is worth doing. */
  readonly guided: number;
  readonly guidedSettled: number;
  /** In working order, stopping as soon as the verdict may be acted on. */
  readonly inOrder: number;
  /** Every check of the sheet. */
  readonly whole: number;
  /** Verdict of the guided way names the right part, or rightly none. */
  readonly guidedRight: number;
}

/** Minutes of work until a verdict may be acted on, on jobs of which every reading is known. */
export function minutesOf(jobs: readonly KnownJob[]): Minutes {
  const sum = { guided: 0, settled: 0, inOrder: 0, whole: 0, right: 0 };
  for (const { job, truth } of jobs) {
    const all = checksTaken(job);
    let known = machineOnly(job);
    let minutes = 0;
    for (;;) {
      if (settled(known)) break;
      const next = nextChecks(known).find((c) => all.includes(c.check));
      if (!next) break;
      known = reveal(known, job, next.check);
      minutes += next.minutes;
    }
    const verdict = diagnose(known)?.verdict;
    const trueParts = truth.faultId
      .split("+")
      .map((id) => faultOf(id.replaceAll("_", "-") as "healthy").part ?? "none");
    sum.guided += minutes;
    sum.settled += settled(known) ? 1 : 0;
    sum.right += verdict && trueParts.includes(verdict.part) ? 1 : 0;
    sum.whole += all.reduce((total, id) => total + checkOf(id)!.minutes, 0);
    let ordered = machineOnly(job);
    for (const { id, minutes: cost } of CHECKS) {
      if (!all.includes(id)) continue;
      ordered = reveal(ordered, job, id);
      sum.inOrder += cost;
      if (settled(ordered)) break;
    }
  }
  const n = jobs.length;
  return {
    jobs: n,
    guided: round(sum.guided / n),
    guidedSettled: round(sum.settled / n),
    inOrder: round(sum.inOrder / n),
    whole: round(sum.whole / n),
    guidedRight: round(sum.right / n),
  };
}

function settled(job: Job): boolean {
  const state = diagnose(job)?.verdict.state;
  return state === "faulty" || state === "serviceable";
}

/** The machine's data and the conditions of the readings, but no reading. */
function machineOnly(job: Job): Job {
  return new Map([...job].filter(([id]) => !isReading(entryOf(id)!) || /rpm$|temperature$|^meter-/u.test(id)));
}

function reveal(known: Job, whole: Job, check: string): Job {
  return new Map([...known, ...[...whole].filter(([id]) => entryOf(id)!.check === check)]);
}

/** Jobs of a file with their known faults. */
export function knownJobs(path: string): readonly KnownJob[] {
  return asKnown((JSON.parse(readFileSync(path, "utf8")) as { cases: { truth: Truth }[] }).cases);
}

/** What the catalogue refuses is left out. */
export function asKnown(cases: readonly { readonly truth: Truth }[]): readonly KnownJob[] {
  return cases.flatMap((one) => {
    const read = jobsFromFile([one]);
    if (!read.ok) {
      console.error(faultMessage(read.fault));
      return [];
    }
    return [{ ...read.value[0]!, truth: one.truth }];
  });
}

if (require.main === module) {
  const { values } = parseArgs({ options: { jobs: { type: "string" }, minutes: { type: "boolean", default: false } } });
  if (values.jobs === undefined) throw new Error("--jobs FILE");
  const jobs = values.jobs.split(",").flatMap(knownJobs);
  console.log(JSON.stringify(values.minutes ? minutesOf(jobs) : scoreOf(jobs), null, 1));
}
