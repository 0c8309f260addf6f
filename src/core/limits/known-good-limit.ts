import { readingUncertainty, rangeFor } from "../judgement/meter";
import type { Limit } from "../judgement/types";
import { numberIn, quantityById } from "../readings/catalogue";
import { knownGood } from "../rectifier/known-good";
import type { Frame } from "./frame";

/** Speed at which each of these readings is taken: only good machines read at the same speed compare. */
const SPEED_OF: Readonly<Record<string, string>> = {
  "idle-voltage": "idle-rpm",
  "test-voltage": "test-rpm",
  "battery-current": "test-rpm",
  "battery-ripple": "test-rpm",
  "loaded-ab": "test-rpm",
  "loaded-bc": "test-rpm",
  "loaded-ca": "test-rpm",
};
const SAME_SPEED = 0.1;
/** Good machines of one number lie this far apart while fewer than three were read [1]. */
const SPREAD = 0.15;

/** Limit from good machines of the same number, for readings that no room compares by itself. */
export function knownGoodLimit({ job, knownGood: jobs, judging }: Frame, id: string): Limit | undefined {
  const entry = quantityById(id);
  if (!entry.meter) return undefined;
  const speed = SPEED_OF[id];
  const here = speed === undefined ? undefined : numberIn(job, speed);
  const values = jobs.flatMap((good) => {
    const there = speed === undefined ? undefined : numberIn(good, speed);
    const apart = here !== undefined && there !== undefined && Math.abs(there / here - 1) > SAME_SPEED;
    return apart ? [] : (numberIn(good, id) ?? []);
  });
  if (values.length === 0) return undefined;
  const largest = Math.max(...values.map(Math.abs));
  const range = rangeFor(judging.meter, entry.meter, largest);
  const interval = knownGood(values, {
    meter: 2 * readingUncertainty(largest, range),
    step: range.resolution,
    spread: SPREAD * largest,
  });
  if (!interval.ok) return undefined;
  const { low, high, count, words } = interval.value;
  return { low, high, origin: { from: "known-good parts", count, words } };
}
