import type { PartState } from "../judgement/types";
import { PARTS, type Part } from "../readings/types";
import { allSound, proofOf, type DirectProof } from "./direct-checks";
import { FAULT_IDS, faultOf, faultsOfKey, type FaultId } from "./faults";
import type { Findings } from "./findings";
import { FAULT_KEYS, keyIndex } from "./hypotheses";

export interface Thresholds {
  /** A part is called faulty from this chance on [1]. */
  readonly faulty: number;
  /** A part is called serviceable up to this chance of any fault in it [1]. */
  readonly serviceable: number;
}
export const THRESHOLDS: Thresholds = { faulty: 0.9, serviceable: 0.05 };

/** From this chance on a part is suspect. */
const SUSPECT = 0.3;

export interface PartVerdict {
  readonly part: Part;
  readonly state: PartState;
  /** Chance of any fault in the part [1]. */
  readonly chance: number;
  /** Likeliest fault of the part. */
  readonly fault: FaultId;
  /** On what grounds it is called faulty. */
  readonly proof?: DirectProof;
}

/** Faults of each part, and the keys (single or pair) that each of them is in. */
const OF_PART = PARTS.map((part) => {
  const faults = FAULT_IDS.filter((id) => faultOf(id).part === part);
  const keys = FAULT_KEYS.map((key, k) => ({
    k,
    own: faultsOfKey(key)
      .filter((id) => faults.includes(id))
      .map((id) => faults.indexOf(id)),
  })).filter(({ own }) => own.length > 0);
  return { part, faults, keys };
});
const HEALTHY = keyIndex("healthy");

/**
 * State of every part: faulty only with the chance and a direct check that shows it, serviceable only
 * with next to no chance of a fault and its own checks in order.
 *
 * @param chances - Chances of faults and pairs, in the order of `FAULT_KEYS`
 */
export function partVerdicts(
  chances: Float64Array,
  findings: Findings,
  thresholds: Thresholds,
): readonly PartVerdict[] {
  return OF_PART.map(({ part, faults, keys }): PartVerdict => {
    const single = new Float64Array(faults.length);
    let chance = 0;
    for (const { k, own } of keys) {
      chance += chances[k]!;
      for (const f of own) single[f] = single[f]! + chances[k]!;
    }
    let best = 0;
    for (let f = 1; f < single.length; f++) if (single[f]! > single[best]!) best = f;
    const fault = faults[best]!;
    if (chance >= thresholds.faulty) {
      const shown = faults.map((id) => proofOf(id, findings));
      let proven = 0;
      for (const { k, own } of keys) if (own.some((f) => shown[f] !== undefined)) proven += chances[k]!;
      // What is shown must be what is believed: most of the chance lies on faults that a check shows.
      const proof = shown[best] ?? shown.find((p) => p !== undefined);
      if (proof && proven >= chance / 2) return { part, state: "faulty", chance, fault, proof };
    }
    const state: PartState =
      chance <= thresholds.serviceable && allSound(part, findings)
        ? "serviceable"
        : chance >= SUSPECT
          ? "suspect"
          : "unproven";
    return { part, state, chance, fault };
  });
}

/** What a job comes down to: the part named, or `none` when "no fault found" leads. */
export interface Leading {
  readonly part: Part | "none";
  readonly state: PartState;
  readonly chance: number;
  readonly verdict: PartVerdict | undefined;
}

export function leadingOf(chances: Float64Array, parts: readonly PartVerdict[], thresholds: Thresholds): Leading {
  const healthy = chances[HEALTHY]!;
  let leading = parts[0]!;
  for (const p of parts) if (p.chance > leading.chance) leading = p;
  if (leading.chance >= healthy)
    return { part: leading.part, state: leading.state, chance: leading.chance, verdict: leading };
  const settled = healthy >= 1 - thresholds.serviceable;
  return { part: "none", state: settled ? "serviceable" : "unproven", chance: healthy, verdict: undefined };
}
