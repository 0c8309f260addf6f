import { entryOf } from "../../../src/core/readings/catalogue";
import { parseEntry } from "../../../src/core/readings/parse";
import type { Job, Measured } from "../../../src/core/readings/types";

/** A job from plain values by catalogue id; a slip in an id throws. */
export function jobOf(data: Readonly<Record<string, string | number>>): Job {
  const job = new Map<string, Measured>();
  for (const [id, value] of Object.entries(data)) {
    const entry = entryOf(id);
    if (!entry) throw new Error(`No "${id}" in the catalogue.`);
    const parsed = parseEntry(value, entry);
    if (!parsed.ok || parsed.value === null) throw new Error(`"${id}" cannot be ${value}.`);
    job.set(id, parsed.value);
  }
  return job;
}
