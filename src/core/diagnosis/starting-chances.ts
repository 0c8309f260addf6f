import { FAULT_IDS, type FaultId } from "./faults";

/** How often each fault was found, as weights; what a shop has closed itself adds to them. */
export interface StartingChances {
  readonly counts: Readonly<Partial<Record<FaultId, number>>>;
  /** Jobs of the shop's own that are in the counts. */
  readonly ownJobs: number;
  readonly origin: string;
}

/**
 * Shipped starting chances: every fault of a complaint about charging alike, "no fault found" twice
 * as often as one of them. No published count of such faults was at hand; the shop's own closed
 * jobs replace this as they come in.
 */
export const SHIPPED_CHANCES: StartingChances = {
  counts: Object.fromEntries(FAULT_IDS.map((id) => [id, id === "healthy" ? 2 : id === "main-fuse-blown" ? 0.05 : id === "joint-fails-hot" ? 0.05 : 1])),
  ownJobs: 0,
  origin: "shipped: all faults alike, no published count at hand",
};

/** Chances that sum to 1. */
export function chancesOf(starting: StartingChances): ReadonlyMap<FaultId, number> {
  const total = FAULT_IDS.reduce((sum, id) => sum + Math.max(0, starting.counts[id] ?? 0), 0);
  return new Map(FAULT_IDS.map((id) => [id, total > 0 ? Math.max(0, starting.counts[id] ?? 0) / total : 1 / FAULT_IDS.length]));
}
