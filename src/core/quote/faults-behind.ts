import { isBlank, isCellError, type Block } from "../cell";
import { faultNamed } from "../diagnosis/fault-names";
import { faultOf, faultsOfKey, withinSentence, type FaultId, type FaultKey } from "../diagnosis/faults";
import type { Part } from "../readings/types";
import { fail, ok, type Result } from "../result";
import { plain } from "./price-list";

/** A cause with its chance, as the diagnosis ranks them. */
export interface Cause {
  readonly fault: FaultKey;
  readonly chance: number;
}

/** Causes that a quote goes by: as many as a job sheet lists, so that sheet and pane quote alike. */
export const CAUSES_WEIGHED = 3;
/** A fault with less than this share of the likeliest one's chance is not worked on. */
const SHARE = 0.2;

/**
 * The faults of a part that hold its chance, likeliest first.
 *
 * @param causes - Likeliest first; a pair counts for both of its faults
 */
export function faultsBehind(part: Part, causes: readonly Cause[]): readonly FaultId[] {
  const chances = new Map<FaultId, number>();
  for (const { fault, chance } of causes.slice(0, CAUSES_WEIGHED)) {
    for (const id of faultsOfKey(fault)) {
      if (faultOf(id).part === part) chances.set(id, (chances.get(id) ?? 0) + chance);
    }
  }
  const ranked = [...chances].sort(([, a], [, b]) => b - a);
  const least = SHARE * (ranked[0]?.[1] ?? 0);
  return ranked.filter(([, chance]) => chance >= least).map(([id]) => id);
}

/** Reads what `CAUSES` gave, in either language: fault, part, chance in rows; blank rows and "not read" are no causes. */
export function causesFromCells(block: Block): Result<readonly Cause[]> {
  const causes: Cause[] = [];
  for (const [label, , chance] of block) {
    if (isBlank(label) || plain(String(label)) === "not read") continue;
    const ids = isCellError(label)
      ? []
      : String(label)
          .split(/ (?:and|y) /u)
          .map(faultNamed);
    if (ids.length === 0 || ids.includes(undefined) || typeof chance !== "number") {
      return fail({
        code: "not-understood",
        what: "causes",
        came: isCellError(label) ? label.error : `${String(label)}, ${String(chance ?? "")}`,
        expected: "the cells of CHG.CAUSES: fault, part, chance",
      });
    }
    causes.push({ fault: ids.join("+") as FaultKey, chance });
  }
  return ok(causes);
}

/** Faults in the trade's words, as they stand within a sentence. */
export function faultWords(faults: readonly FaultId[]): string {
  return faults.map((id) => withinSentence(faultOf(id).label)).join(", ");
}
