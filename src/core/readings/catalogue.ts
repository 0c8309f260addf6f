import { BATTERY } from "./battery-entries";
import { CHECKS } from "./checks";
import { INTAKE } from "./intake-entries";
import { MACHINE } from "./machine-entries";
import { RECTIFIER } from "./rectifier-entries";
import { RUNNING } from "./running-entries";
import { STATOR } from "./stator-entries";
import type { Check, Entry, Job, QuantityEntry } from "./types";

/**
 * Everything that is known or read of a machine, one entry per quantity, in working order. Sheets,
 * the pane, worksheet functions, header matching, the command line and the next check derive from it.
 */
export const CATALOGUE: readonly Entry[] = [...INTAKE, ...MACHINE, ...BATTERY, ...RUNNING, ...STATOR, ...RECTIFIER];

const BY_ID = new Map(CATALOGUE.map((entry) => [entry.id, entry]));
const CHECK_BY_ID = new Map(CHECKS.map((check) => [check.id, check]));

export function entryOf(id: string): Entry | undefined {
  return BY_ID.get(id);
}

/** The quantity with this id; a caller's slip in an id is our bug and throws. */
export function quantityById(id: string): QuantityEntry {
  const entry = BY_ID.get(id);
  if (entry?.kind !== "quantity") throw new Error(`No quantity "${id}" in the catalogue.`);
  return entry;
}

export function checkOf(id: string): Check | undefined {
  return CHECK_BY_ID.get(id);
}

/** Entries that one check yields, in the order in which they are read. */
export function entriesOfCheck(checkId: string): readonly Entry[] {
  return CATALOGUE.filter((entry) => entry.check === checkId);
}

/** True for what is read of the machine at hand, false for its data and for intake texts. */
export function isReading(entry: Entry): boolean {
  return entry.stage !== "intake" && entry.stage !== "machine" && entry.kind !== "text";
}

/** The number that was read, in the entry's unit; `undefined` where blank or over-range. */
export function numberIn(job: Job, id: string): number | undefined {
  const measured = job.get(id);
  return measured?.kind === "number" ? measured.value : undefined;
}

/** The text that was typed; `undefined` where blank. */
export function textIn(job: Job, id: string): string | undefined {
  const measured = job.get(id);
  return measured?.kind === "text" ? measured.value : undefined;
}

/** The word that was chosen; `undefined` where blank. */
export function choiceIn(job: Job, id: string): string | undefined {
  const measured = job.get(id);
  return measured?.kind === "choice" ? measured.value : undefined;
}
