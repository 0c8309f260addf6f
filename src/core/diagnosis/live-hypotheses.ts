import { FAULT_KEYS, HYPOTHESES, KEY_OF_HYPOTHESIS } from "./hypotheses";
import { SIGNATURE_COUNT, SIGNATURE_OF_HYPOTHESIS } from "./signatures";

/** Hypotheses less likely than this do not steer the choice of a check. */
const NEGLIGIBLE = 1e-3;

/** The hypotheses still in question; rows of numbers of which the first `count` (or `faults`) count. */
export interface Live {
  readonly count: number;
  readonly indices: Int32Array;
  readonly chances: Float64Array;
  /** Position of each one's fault among the faults that are still in question. */
  readonly slots: Int32Array;
  /** Signatures of these hypotheses, each once. */
  readonly signatures: Int32Array;
  readonly faults: number;
  readonly keys: Int32Array;
  /** How much is not known about the fault [nat]. */
  readonly doubt: number;
}

/** Working room, used anew for each job: a fleet asks a hundred thousand times. */
const ROOM = {
  indices: new Int32Array(HYPOTHESES.length),
  slots: new Int32Array(HYPOTHESES.length),
  chances: new Float64Array(HYPOTHESES.length),
  keys: new Int32Array(FAULT_KEYS.length),
  before: new Float64Array(FAULT_KEYS.length),
  signatures: new Int32Array(SIGNATURE_COUNT),
  asked: new Uint8Array(SIGNATURE_COUNT),
};

/** @param hypotheses - One chance each, in the order of `HYPOTHESES`; the answer holds until the next is asked for */
export function liveHypotheses(hypotheses: Float64Array): Live {
  const { indices, slots, chances, keys, before, signatures, asked } = ROOM;
  asked.fill(0);
  let count = 0;
  let faults = 0;
  let rows = 0;
  let total = 0;
  for (let h = 0; h < hypotheses.length; h++) {
    if (hypotheses[h]! <= NEGLIGIBLE) continue;
    const key = KEY_OF_HYPOTHESIS[h]!;
    let slot = 0;
    while (slot < faults && keys[slot] !== key) slot++;
    if (slot === faults) {
      keys[faults] = key;
      before[faults++] = 0;
    }
    const signature = SIGNATURE_OF_HYPOTHESIS[h]!;
    if (asked[signature] === 0) signatures[rows++] = signature;
    asked[signature] = 1;
    indices[count] = h;
    slots[count++] = slot;
    total += hypotheses[h]!;
  }
  for (let i = 0; i < count; i++) {
    const chance = (chances[i] = hypotheses[indices[i]!]! / total);
    before[slots[i]!] = before[slots[i]!]! + chance;
  }
  const doubt = -sumOfLogs(before, 0, faults);
  return { count, indices, chances, slots, signatures: signatures.subarray(0, rows), faults, keys, doubt };
}

/** Sum of each value times its logarithm; what is next to nil adds nothing. */
export function sumOfLogs(values: Float64Array, from: number, count: number): number {
  let sum = 0;
  for (let i = from; i < from + count; i++) {
    const v = values[i]!;
    if (v > 1e-15) sum += v * Math.log(v);
  }
  return sum;
}
