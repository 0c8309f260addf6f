import { parseEntry } from "../../../src/core/readings/parse";
import { entryOf } from "../../../src/core/readings/catalogue";
import type { Cell } from "../../../src/core/cell";
import type { Job, Measured } from "../../../src/core/readings/types";

/** A job from values as a person types them, by catalogue id. */
export function jobOf(values: Readonly<Record<string, Cell>>): Job {
  const job = new Map<string, Measured>();
  for (const [id, cell] of Object.entries(values)) {
    const entry = entryOf(id);
    if (!entry) throw new Error(`no catalogue entry ${id}`);
    const parsed = parseEntry(cell, entry);
    if (!parsed.ok) throw new Error(`${id}: ${JSON.stringify(parsed.fault)}`);
    if (parsed.value !== null) job.set(id, parsed.value);
  }
  return job;
}

/** A diode check as a block: rows upper forward, lower forward, upper reverse, lower reverse. */
export function diodeCheck(block: readonly (readonly [Cell, Cell, Cell])[]): Readonly<Record<string, Cell>> {
  const rows = ["upper-forward", "lower-forward", "upper-reverse", "lower-reverse"];
  return Object.fromEntries(
    rows.flatMap((row, r) => ["a", "b", "c"].map((phase, c) => [`${row}-${phase}`, block[r]?.[c] ?? null])),
  );
}

/** Readings of a machine in order, as a start for changes. */
export const MACHINE_IN_ORDER: Readonly<Record<string, Cell>> = {
  "battery-type": "agm",
  "battery-capacity": 12,
  "battery-cca": 175,
  "regulated-min": 13.8,
  "regulated-max": 15,
  "rated-output": 320,
  "rated-output-rpm": 5000,
  "no-load-nominal": 70,
  "no-load-nominal-rpm": 4000,
  "no-load-tolerance": 15,
  "stator-ohms-min": 0.6,
  "stator-ohms-max": 0.9,
  "stator-ohms-temp": 20,
  "key-off-limit": 10,
  "lights-load": 12,
};

export const READINGS_IN_ORDER: Readonly<Record<string, Cell>> = {
  "battery-temperature": 20,
  "rested-voltage": 12.78,
  "cranking-voltage": 10.4,
  "key-off-draw": 1.2,
  "idle-rpm": 1300,
  "idle-voltage": 13.6,
  "test-rpm": 5000,
  "test-voltage": 14.4,
  "battery-current": 2.4,
  "no-load-rpm": 4000,
  "no-load-ab": 70.4,
  "no-load-bc": 70.1,
  "no-load-ca": 70.6,
  "meter-leads": 0.2,
  "meter-ohm-step": 0.01,
  "winding-ab": 0.98,
  "winding-bc": 0.99,
  "winding-ca": 0.98,
  "ground-a": "OL",
  "bplus-drop": 0.18,
  "ground-drop": 0.09,
  "drop-current": 14.2,
  "key-on-load": 11.6,
  "load-test-rested": 12.78,
  "load-test-current": 88,
  "load-test-seconds": 15,
  "load-test-voltage": 10.5,
};
