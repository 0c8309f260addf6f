import { entriesOfCheck, entryOf } from "../readings/catalogue";
import { CHECKS } from "../readings/checks";
import type { Job } from "../readings/types";

/** A speed, a temperature or a lead resistance alone is no check taken. */
const CONDITION_ONLY = new Set([
  "idle-rpm",
  "test-rpm",
  "no-load-rpm",
  "no-load-rpm-2",
  "meter-leads",
  "meter-ohm-step",
  "battery-temperature",
  "stator-temperature",
  "hours-rested",
  "load-test-recharged",
  "load-test-seconds",
  "load-test-current",
  "insulation-temperature",
]);
const ORDER = new Map(CHECKS.map((c, i) => [c.id, i]));

/** Checks of which at least one reading is there, in working order. */
export function checksTaken(job: Job): readonly string[] {
  const seen = new Set<string>();
  for (const id of job.keys()) {
    const check = entryOf(id)?.check;
    if (check !== undefined && !CONDITION_ONLY.has(id)) seen.add(check);
  }
  return [...seen].sort((a, b) => ORDER.get(a)! - ORDER.get(b)!);
}

/** Readings without which the check is only half done. */
const WHOLE: Readonly<Partial<Record<string, readonly string[]>>> = {
  "voltage-drops": ["bplus-drop", "ground-drop"],
  "running-test": ["test-voltage"],
  "load-test": ["load-test-voltage"],
};

/** Whether a check was taken and is not half done, or another has shown as much: what need not be asked for again. */
export function isWhole(check: string, taken: readonly string[], job: Job): boolean {
  if (check === "battery-at-rest" && job.has("load-test-rested")) return true;
  return taken.includes(check) && (WHOLE[check] ?? []).every((reading) => job.has(reading));
}

/** The job as if a check had not been done. */
export function leaveOut(job: Job, checkId: string): Job {
  const kept = new Map(job);
  for (const entry of entriesOfCheck(checkId)) if (!CONDITION_ONLY.has(entry.id)) kept.delete(entry.id);
  return kept;
}
