import type { Job } from "../readings/types";
import { diodeEvidence, RECTIFIER_STATES } from "./diode-evidence";
import type { FaultKey } from "./faults";
import { frameOf, type Frame } from "./frame";
import { logSum } from "./gaussian";
import { HYPOTHESES, type Hypothesis } from "./hypotheses";
import { MaskedMixtures } from "./mixture";
import { noLoadEvidence, OUTPUT_STATES } from "./no-load-evidence";
import { FEATURES, runningFeatures, type Feature } from "./running-features";
import { handComponents } from "./signatures-by-hand";
import { CONNECTOR_STATES, connectorEvidence, DRAW_STATES, drawEvidence, GROUND_STATES, groundEvidence } from "./single-evidence";
import { WINDING_STATES, windingEvidence } from "./winding-evidence";

const RUNNING_NAMES = [...new Set(HYPOTHESES.map((h) => h.running))];
const RUNNING = new MaskedMixtures(
  RUNNING_NAMES.map((name) => ({ weight: 1, ...handComponents(name) })),
  6,
);

/** Log starting chance of a fault; faults that the table leaves out are impossible. */
export type LogStart = (fault: FaultKey) => number;

/**
 * Chances of all hypotheses after the job's readings.
 *
 * @returns One chance a hypothesis, in the order of `HYPOTHESES`; they sum to 1
 */
export function posterior(job: Job, start: LogStart, knownGood: readonly Job[] = []): Float64Array {
  const frame = frameOf(job);
  const logs = logLikelihoods(job, frame, knownGood);
  let top = -Infinity;
  for (let i = 0; i < logs.length; i++) {
    const h = HYPOTHESES[i]!;
    logs[i] = logs[i]! + start(h.fault) + Math.log(h.share * possible(h, frame));
    if (logs[i]! > top) top = logs[i]!;
  }
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += logs[i] = Math.exp(logs[i]! - top);
  for (let i = 0; i < logs.length; i++) logs[i] = logs[i]! / sum;
  return logs;
}

/** A shunt regulator cannot fail as a series one; where the kind is not known both are as likely as they are common. */
function possible(h: Hypothesis, frame: Frame): number {
  if (h.regulator === undefined) return 1;
  if (frame.regulator === undefined) return h.regulator === "shunt" ? 0.65 : 0.35;
  return frame.regulator === h.regulator ? 1 : 1e-6;
}

export function logLikelihoods(job: Job, frame: Frame, knownGood: readonly Job[]): Float64Array {
  const total = new Float64Array(HYPOTHESES.length);
  const add = <S extends string>(states: readonly S[], logs: readonly number[] | undefined, state: (h: Hypothesis) => S) => {
    if (!logs) return;
    const by = new Map(states.map((s, i) => [s, logs[i]!]));
    HYPOTHESES.forEach((h, i) => (total[i] = total[i]! + by.get(state(h))!));
  };
  add(RECTIFIER_STATES, diodeEvidence(job, frame, knownGood), (h) => h.rectifier);
  add(WINDING_STATES, windingEvidence(job, frame), (h) => h.winding);
  add(OUTPUT_STATES, noLoadEvidence(job, frame), (h) => h.output);
  add(GROUND_STATES, groundEvidence(job), (h) => h.ground);
  add(DRAW_STATES, drawEvidence(job, frame), (h) => h.draw);
  add(CONNECTOR_STATES, connectorEvidence(job), (h) => h.connector);
  const densities = RUNNING.logDensities(runningFeatures(job, frame));
  // A share of jobs is odd in a way that no fault foretells.
  const background = logSum([...densities]) - Math.log(densities.length) + Math.log(0.01);
  add(RUNNING_NAMES, [...densities].map((d) => logSum([d, background])), (h) => h.running);
  return total;
}

/** Centre and spread of one feature under a hypothesis, on the feature's own scale. */
export function runningCentre(h: Hypothesis, feature: Feature, _frame: Frame | undefined): { readonly centre: number; readonly spread: number } {
  const { mean, covariance } = RUNNING.components[RUNNING_NAMES.indexOf(h.running)]!;
  const i = FEATURES.indexOf(feature);
  return { centre: mean[i]!, spread: Math.sqrt(covariance[(i * (i + 1)) / 2 + i]!) };
}
