/**
 * Readings that say how another one was taken. They have no limit of their own: the judgement of
 * the others takes them into account.
 */
export const CONDITIONS: ReadonlySet<string> = new Set([
  "battery-temperature",
  "hours-rested",
  "load-test-current",
  "load-test-seconds",
  "idle-rpm",
  "test-rpm",
  "drop-current",
  "added-load",
  "no-load-rpm",
  "no-load-rpm-2",
  "meter-leads",
  "meter-ohm-step",
  "stator-temperature",
  "insulation-temperature",
]);
