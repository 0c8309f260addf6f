import type { Judged, ReadingState } from "../core/judgement/types";
import { choiceIn, entriesOfCheck } from "../core/readings/catalogue";
import { CHECKS } from "../core/readings/checks";
import { STAGES, type Check, type Entry, type Job, type Stage } from "../core/readings/types";
import type { BridgeKind } from "./drawings/bridge-drawing";
import type { Phase } from "./drawings/placements";
import type { DrawnMachine } from "./drawings/reading-drawing";
import type { Connection } from "./drawings/stator-drawings";

/** A check with what has been read of it. */
export interface CheckProgress {
  readonly check: Check;
  /** Entries that this machine has. */
  readonly entries: readonly Entry[];
  readonly read: number;
  /** The gravest state among its readings; `not read` where none is. */
  readonly state: ReadingState;
  /** False where the machine's data say that there is nothing to check. */
  readonly applies: boolean;
}

const GRAVITY: readonly ReadingState[] = ["fail", "unsure", "pass", "not read"];

/** The checks in working order, each with its progress. */
export function checksInOrder(job: Job, judged: ReadonlyMap<string, Judged>): readonly CheckProgress[] {
  return CHECKS.map((check): CheckProgress => {
    const entries = entriesOfCheck(check.id).filter((entry) => entryApplies(entry, job));
    const read = entries.filter((entry) => job.has(entry.id)).length;
    const states = new Set(entries.map((entry) => judged.get(entry.id)?.state ?? "not read"));
    return {
      check,
      entries,
      read,
      state: GRAVITY.find((state) => states.has(state)) ?? "not read",
      applies: read > 0 || checkApplies(check, job),
    };
  });
}

export function stagesOf(
  checks: readonly CheckProgress[],
): readonly { readonly stage: Stage; readonly checks: readonly CheckProgress[] }[] {
  return STAGES.map((stage) => ({ stage, checks: checks.filter(({ check }) => check.stage === stage) })).filter(
    (group) => group.checks.length > 0,
  );
}

function checkApplies(check: Check, job: Job): boolean {
  if (check.id === "cell-gravities") return !["agm", "gel", "lithium"].includes(choiceIn(job, "battery-type") ?? "");
  const alternator = choiceIn(job, "alternator-kind");
  if (check.id === "rotor") return alternator === "field-excited";
  // A half-wave winding ends on the iron by design.
  if (check.id === "winding-to-ground" || check.id === "insulation") return alternator !== "half-wave";
  return true;
}

/** A single-phase machine has one pair and no third phase; what was read anyway stays visible. */
function entryApplies(entry: Entry, job: Job): boolean {
  if (job.has(entry.id)) return true;
  const absent = ABSENT[choiceIn(job, "alternator-kind") ?? ""];
  return !(absent && entry.check !== undefined && PHASED.test(entry.id) && absent.test(entry.id));
}

const PHASED = /^(?:no-load|loaded|winding|ground|upper|lower|phase-drop)-/u;
const ABSENT: Readonly<Record<string, RegExp>> = {
  "single-phase": /-(?:bc|ca|c)$/u,
  "half-wave": /-(?:bc|ca|b|c)$/u,
};

/** What the drawings show of the machine. */
export function drawnMachine(job: Job): DrawnMachine {
  const kind = choiceIn(job, "alternator-kind");
  const phases: readonly Phase[] = kind === "single-phase" || kind === "half-wave" ? ["a", "b"] : ["a", "b", "c"];
  return {
    connection: (choiceIn(job, "stator-connection") ?? "unknown") as Connection,
    bridge: (choiceIn(job, "bridge-kind") ?? "unknown") as BridgeKind,
    phases,
  };
}
