import { FAULT_IDS, faultsOfKey, type FaultId, type FaultKey } from "./faults";
import { FAULT_KEYS, HYPOTHESES } from "./hypotheses";

/** How often each fault was found, as weights; what a shop has proven itself adds to them. */
export interface StartingChances {
  readonly counts: Readonly<Partial<Record<FaultId, number>>>;
}

/**
 * Shipped starting chances: every fault of a complaint about charging alike, "no fault found" twice
 * as often as one of them. No published count of such faults was at hand; repairs that the shop has
 * proven outweigh this as they come in.
 */
export const SHIPPED_CHANCES: StartingChances = {
  counts: Object.fromEntries(
    FAULT_IDS.map((id) => [
      id,
      id === "healthy"
        ? 2
        : id === "main-fuse-blown"
          ? 0.1
          : id === "joint-fails-hot" || id === "regulator-leaks"
            ? 0.05
            : 1,
    ]),
  ),
};

/** Name of the setting for machines that come without a complaint. */
export const IN_ORDER_BEFOREHAND = "in order beforehand";

/** How often a shop found each fault and proved its repair: as many counts on top of the shipped ones (Dirichlet). */
export type ProvenRepairs = ReadonlyMap<FaultId, number>;

const STARTS = new Map<string, StartingChances>();
/** A workbook has one or two such starts. */
const MOST_STARTS = 16;

/**
 * Starting chances of a shop; the same answer for the same counts.
 *
 * @param proven - Counts of its own repairs, 0 or more [1]
 * @param inOrder - Share of machines in order before anything is read, above 0, below 1 [1]: routine visits of a fleet.
 *   Without it the machine came with a complaint
 */
export function startingFrom(proven: ProvenRepairs, inOrder?: number): StartingChances {
  if (proven.size === 0 && inOrder === undefined) return SHIPPED_CHANCES;
  const key = `${inOrder} ${[...proven].join(" ")}`;
  let start = STARTS.get(key);
  if (!start) {
    if (STARTS.size >= MOST_STARTS) STARTS.clear();
    const counts = { ...SHIPPED_CHANCES.counts };
    for (const [fault, count] of proven) counts[fault] = (counts[fault] ?? 0) + count;
    if (inOrder !== undefined) {
      const faults = FAULT_IDS.reduce((sum, id) => sum + (id === "healthy" ? 0 : (counts[id] ?? 0)), 0);
      counts.healthy = (faults * inOrder) / (1 - inOrder);
    }
    STARTS.set(key, (start = { counts }));
  }
  return start;
}

/**
 * A pair is as likely as chance alone would have it, times this: most shops repair one fault before
 * the next comes. A judgement, not a count.
 */
const PAIR = 0.3;
const PAIR_KEYS = FAULT_KEYS.filter((key) => key.includes("+"));

/** Chances of single faults and of pairs, which sum to 1. */
export function chancesOf(starting: StartingChances): ReadonlyMap<FaultKey, number> {
  const count = (id: FaultId) => Math.max(0, starting.counts[id] ?? 0);
  const total = FAULT_IDS.reduce((sum, id) => sum + count(id), 0);
  const single = (id: FaultId) => (total > 0 ? count(id) / total : 1 / FAULT_IDS.length);
  const chances = new Map<FaultKey, number>(FAULT_IDS.map((id) => [id, single(id)]));
  let sum = 1;
  for (const key of PAIR_KEYS) {
    const [first, second] = faultsOfKey(key);
    const chance = PAIR * single(first!) * single(second!);
    chances.set(key, chance);
    sum += chance;
  }
  return new Map([...chances].map(([key, chance]) => [key, chance / sum]));
}

const LOGS = new WeakMap<StartingChances, Float64Array>();

/** Log starting chance of each hypothesis' fault, worked out once for one table. */
export function logStart(starting: StartingChances): Float64Array {
  const kept = LOGS.get(starting);
  if (kept) return kept;
  const chances = chancesOf(starting);
  const logs = Float64Array.from(HYPOTHESES, (h) => Math.log(chances.get(h.fault) ?? 0));
  LOGS.set(starting, logs);
  return logs;
}
