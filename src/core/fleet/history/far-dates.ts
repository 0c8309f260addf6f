import { isoDate } from "../dates";
import type { Hear } from "./types";
import type { VisitLog } from "./visit-log";

/** Days so far from all others are more likely a slip of the year than a visit [d]. */
const FAR = 1000;
const LEAST_VISITS = 5;
/** No more than this share of the visits, and one at least, may stand apart [1]. */
const FEW = 0.02;

/**
 * Visits whose day stands years apart from those of the whole fleet, as 2062 for 2026 does: such a visit counts as
 * its machine's latest from then on.
 *
 * @param headerOf - Header of the dates in a file
 */
export function farDates(log: VisitLog, headerOf: (file: number) => string, hear: Hear): void {
  const days = Float64Array.from({ length: log.size }, (_, i) => log.dayAt(i)).filter((day) => !Number.isNaN(day));
  if (days.length < LEAST_VISITS) return;
  days.sort();
  const most = Math.max(1, Math.floor(FEW * days.length));
  const gap = (i: number) => days[i]! - days[i - 1]!;
  const first = Array.from({ length: most }, (_, i) => i + 1).find((i) => gap(i) > FAR);
  const last = Array.from({ length: most }, (_, i) => days.length - 1 - i).find((i) => gap(i) > FAR);
  const [from, to] = [first === undefined ? -Infinity : days[first]!, last === undefined ? Infinity : days[last - 1]!];
  if (first === undefined && last === undefined) return;
  for (let i = 0; i < log.size; i++) {
    const day = log.dayAt(i);
    if (!(day < from || day > to)) continue;
    const apart = day < from ? `${Math.round(from - day)} days before` : `${Math.round(day - to)} days after`;
    const { file, row } = log.placeAt(i);
    hear({
      file,
      row,
      column: headerOf(file),
      machine: log.machineAt(i),
      kind: "date far off",
      what: `${isoDate(day)} lies ${apart} all other visits; it was taken as it stands.`,
    });
  }
}
