import type { Job } from "../readings/types";
import { LOAD_STATES, loadEvidence } from "./battery-findings";
import { bridgeLog, diodeEvidence, RECTIFIER_STATES } from "./diode-evidence";
import { foundFlat } from "./flat-battery";
import { frameOf, type Frame } from "./frame";
import { logSum } from "./gaussian";
import { CELL_STATES, gravityEvidence } from "./gravity-evidence";
import { HYPOTHESES, type Placed } from "./hypotheses";
import { impossibleOn } from "./impossible-faults";
import { noLoadEvidence, OUTPUT_STATES } from "./no-load-evidence";
import { isRotorWeak, rotorEvidence } from "./rotor-evidence";
import { covariates, runningFeatures } from "./running-features";
import { runningLogs, SIGNATURE_OF_HYPOTHESIS, situationOf, type Situation } from "./signatures";
import { logStart, type StartingChances } from "./starting-chances";
import {
  CONNECTOR_STATES,
  connectorEvidence,
  DEMAND_STATES,
  demandEvidence,
  DRAW_STATES,
  drawEvidence,
  GROUND_STATES,
  groundEvidence,
  LIMIT_STATES,
  limitEvidence,
  UNIT_STATES,
  unitEvidence,
} from "./single-evidence";
import { WINDING_STATES, windingEvidence } from "./winding-evidence";
import { numberRow } from "./number-row";
import { RUN_STATES, runEvidence } from "./wiring-findings";

const stateIndex = <S extends string>(states: readonly S[], of: (h: Placed) => S) =>
  Int32Array.from(HYPOTHESES, (h) => states.indexOf(of(h)));
const SHUNT = Int32Array.from(HYPOTHESES, (h) => (h.kind === "shunt" ? 1 : 0));
const RECTIFIER = stateIndex(RECTIFIER_STATES, (h) => h.rectifier);
const WINDING = stateIndex(WINDING_STATES, (h) => h.winding);
const OUTPUT = stateIndex(OUTPUT_STATES, (h) => h.output);
const GROUND = stateIndex(GROUND_STATES, (h) => h.ground);
const CELLS = stateIndex(CELL_STATES, (h) => h.cells);
const LOADED = stateIndex(LOAD_STATES, (h) => (h.fault.includes("battery-") ? "fails" : "carries"));
const resisting = (faults: RegExp) => stateIndex(RUN_STATES, (h) => (faults.test(h.fault) ? "resists" : "sound"));
const BPLUS = resisting(/bplus|fuse|joint/u);
const GROUND_RUN = resisting(/high-resistance-ground|joint/u);
const DEMAND = stateIndex(DEMAND_STATES, (h) => (h.fault.includes("excessive-load") ? "beyond" : "within"));
const DRAW = stateIndex(DRAW_STATES, (h) => h.draw);
const CONNECTOR = stateIndex(CONNECTOR_STATES, (h) => h.connector);
const LIMIT = stateIndex(LIMIT_STATES, (h) => (h.fault.includes("overcharge") ? "runs away" : h.limit));
const ROTOR = Int32Array.from(HYPOTHESES, (h) => Number(isRotorWeak(h)));
const UNIT = stateIndex(UNIT_STATES, (h) => h.unit);
const LOG_SHARE = Float64Array.from(HYPOTHESES, (h) => Math.log(h.share) + kindLog(h));

type EvidenceOf = (job: Job, frame: Frame) => readonly number[] | undefined;
/** What each check says of the states that it can tell apart, and the state of each hypothesis. */
const EVIDENCE: readonly (readonly [EvidenceOf, Int32Array])[] = [
  [windingEvidence, WINDING],
  [noLoadEvidence, OUTPUT],
  [groundEvidence, GROUND],
  [rotorEvidence, ROTOR],
  [demandEvidence, DEMAND],
  [drawEvidence, DRAW],
  [gravityEvidence, CELLS],
  [loadEvidence, LOADED],
  [unitEvidence, UNIT],
  [limitEvidence, LIMIT],
  [connectorEvidence, CONNECTOR],
  [(job, frame) => runEvidence(job, frame, "bplus-drop"), BPLUS],
  [(job, frame) => runEvidence(job, frame, "ground-drop"), GROUND_RUN],
];

/** How common the kinds of regulator are; a fault that only one kind can have has that kind. */
function kindLog(h: Placed): number {
  if (h.regulator !== undefined) return 0;
  return Math.log(h.kind === "shunt" ? 0.62 : 0.38);
}

/**
 * Chances of all hypotheses after the job's readings.
 *
 * @param start - Log starting chance of each hypothesis' fault
 * @returns One chance a hypothesis, in the order of `HYPOTHESES`; they sum to 1
 */
export function posterior(
  job: Job,
  start: Float64Array,
  knownGood: readonly Job[] = [],
  frame: Frame = frameOf(job),
  situation: Situation = situationIn(job, frame),
): Float64Array {
  const logs = logLikelihoods(job, frame, knownGood, situation);
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) {
    logs[i] = logs[i]! + start[i]! + LOG_SHARE[i]!;
    if (logs[i]! > top) top = logs[i]!;
  }
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += logs[i] = Math.exp(logs[i]! - top);
  for (let i = 0; i < logs.length; i++) logs[i] = logs[i]! / sum;
  return logs;
}

/** Chances of all hypotheses before the first reading; they sum to 1. */
export function startOf(starting: StartingChances): Float64Array {
  return logStart(starting).map((l, i) => Math.exp(l + LOG_SHARE[i]!));
}

/** What the signatures look at in a job. */
export function situationIn(job: Job, frame: Frame): Situation {
  return situationOf(covariates(frame), runningFeatures(job, frame));
}

/** A shunt regulator cannot fail as a series one; a wrong word on the sheet is not ruled out. */
const WRONG_KIND = Math.log(1e-4);
const IMPOSSIBLE = [0, WRONG_KIND];

/** Log likelihood of all readings under each hypothesis: checks are independent once it is given. */
export function logLikelihoods(job: Job, frame: Frame, knownGood: readonly Job[], situation: Situation): Float64Array {
  const total = numberRow(HYPOTHESES.length);
  const onShunt = diodeEvidence(job, frame, knownGood, "shunt");
  if (onShunt) {
    const onSeries = diodeEvidence(job, frame, knownGood, "series")!;
    for (let i = 0; i < total.length; i++) total[i] = total[i]! + (SHUNT[i] === 1 ? onShunt : onSeries)[RECTIFIER[i]!]!;
  }
  add(total, [stated("series", frame), stated("shunt", frame)], SHUNT);
  for (const impossible of impossibleOn(frame)) add(total, IMPOSSIBLE, impossible);
  for (const [evidenceOf, state] of EVIDENCE) add(total, evidenceOf(job, frame), state);
  addRunning(total, situation);
  return total;
}

/** Battery and running machine as each signature foretells them, and as they are where the battery was found flat. */
function addRunning(total: Float64Array, situation: Situation): void {
  const logs = runningLogs(situation);
  const flat = foundFlat(situation);
  if (!flat) return addRows(total, logs, SIGNATURE_OF_HYPOTHESIS);
  const without = runningLogs(flat.without);
  for (let i = 0; i < total.length; i++) {
    const row = SIGNATURE_OF_HYPOTHESIS[i]!;
    total[i] = total[i]! + logSum([logs[row]!, without[row]! + flat.log[DRAW_STATES[DRAW[i]!]!]]);
  }
}

/** Adds what a check says of each of its states, where it was taken. */
function add(total: Float64Array, logs: readonly number[] | undefined, state: Int32Array): void {
  if (!logs) return;
  for (let s = 0; s < logs.length; s++) SAID[s] = logs[s]!;
  addRows(total, SAID, state);
}
/** Working room: numbers of one kind only are added much faster. */
const SAID = new Float64Array(16);

function addRows(total: Float64Array, logs: Float64Array, row: Int32Array): void {
  for (let i = 0; i < total.length; i++) total[i] = total[i]! + logs[row[i]!]!;
}

/** What the machine's data says of the kind of regulator. */
function stated(kind: "shunt" | "series", frame: Frame): number {
  const other = frame.regulator === "shunt" || frame.regulator === "series" ? frame.regulator !== kind : false;
  return bridgeLog(frame, kind) + (other ? WRONG_KIND : 0);
}
