import { numberIn } from "../readings/catalogue";
import { GROUND_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import type { Finding } from "./finding";
import type { Frame } from "./frame";
import { hasOnePair, isGroundedByDesign } from "./machine-kind";
import { noLoadReadings } from "./no-load-evidence";
import { fieldConducts } from "./rotor-evidence";
import { ohmReadings, ohmReadingSpread } from "./winding-evidence";

/** What the unplugged stator's AC shows: its level against the plate, and the three pairs side by side. */
export function noLoadFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const read = noLoadReadings(job);
  const values = read?.pairs.filter((v): v is number => v !== undefined) ?? [];
  if (!read || values.length === 0) return;
  const high = Math.max(...values);
  const low = Math.min(...values);
  const meanVolts = values.reduce((a, b) => a + b, 0) / values.length;
  const tolerance = (numberIn(job, "no-load-tolerance") ?? 20) / 100;
  const expected =
    frame.emfPerKrpm === undefined || read.rpm === undefined ? undefined : (frame.emfPerKrpm * read.rpm) / 1000;
  const pairs = hasOnePair(frame) ? 1 : 3;
  if (high > 3 && low < 0.05 * high) found.add("no-load-dead-pair");
  else if (values.length === 3 && high - low > Math.max(0.04 * meanVolts, 1)) found.add("no-load-uneven");
  const atTest = expectedAtTest(values, read.rpm, frame);
  // Peak of the lowest pair at twice the battery's voltage: any bridge would charge from it.
  if (values.length === pairs && low > 0.9 * high && atTest !== undefined && atTest * Math.SQRT2 > 28)
    found.add("no-load-alive");
  if (expected === undefined || values.length < pairs) return;
  // 3 % for the speed and 1 % for the meter on top of the maker's own tolerance.
  if (high < expected * (1 - tolerance - 0.04)) {
    // One winding has no sisters: low may be its own short as well, unless its resistance is whole.
    if (pairs === 3) found.add("no-load-low");
    else if (found.has("winding-even")) found.add("only-pair-low");
  } else if (low > expected * (1 - tolerance) && high - low <= Math.max(0.04 * meanVolts, 1)) found.add("no-load-full");
}

/** Lowest no-load pair carried over to the test speed [V]. */
function expectedAtTest(values: readonly number[], rpm: number | undefined, frame: Frame): number | undefined {
  if (rpm === undefined || rpm <= 0) return undefined;
  return (Math.min(...values) * frame.voltScale * (frame.testRpm ?? rpm)) / rpm;
}

/** What the three resistances show beyond the meter's own uncertainty. */
export function windingFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const read = ohmReadings(job);
  if (!read) return;
  const over = read.pairs.filter((p) => p === "over").length;
  const values = read.pairs.filter((p): p is number => typeof p === "number").map((p) => p - read.leads);
  if (over > 0) found.add("winding-open");
  if (over > 0 || values.length < (hasOnePair(frame) ? 1 : 3)) return;
  found.add("winding-whole");
  if (hasOnePair(frame)) {
    const noise = 2 * ohmReadingSpread(read.step);
    const { lineOhms } = frame;
    if (lineOhms !== undefined && values[0]! > 0.85 * lineOhms - noise && values[0]! < 1.25 * lineOhms + noise)
      found.add("winding-even");
    return;
  }
  const [low, middle, high] = [...values].sort((a, b) => a - b) as [number, number, number];
  const noise = 2.5 * Math.SQRT2 * ohmReadingSpread(read.step) + 0.02 * Math.max(middle, 0);
  const size = Math.max(frame.lineOhms ?? middle, read.step);
  if (high > 1.6 * middle && high - middle > noise && Math.abs(middle - low) <= noise + 0.1 * middle)
    found.add("winding-open");
  else if (middle - low > noise && high - middle <= noise && middle - low > 0.15 * size) {
    const apart = onePairApart(low, middle, frame);
    if (apart) found.add(apart);
  } else if (high - middle > noise && high - middle > 0.04 * size && low < 1.1 * size + noise)
    found.add("winding-low-pair");
  // A meter that could not tell an open delta winding, one pair at twice the others, shows nothing even.
  else if (
    high - low <= noise &&
    noise <= 0.5 * middle &&
    (frame.lineOhms === undefined || (low > 0.75 * frame.lineOhms - noise && high < 1.5 * frame.lineOhms + noise))
  )
    found.add("winding-even");
}

/**
 * Two pairs alike and the third lower: a lead that adds to both of its pairs, or, in delta alone, a
 * winding short of turns. Only the figure of the sound winding tells which; without it neither is shown.
 */
function onePairApart(
  low: number,
  alike: number,
  { lineOhms, connection }: Frame,
): "winding-high-lead" | "winding-low-pair" | undefined {
  if (connection === "wye") return "winding-high-lead";
  if (lineOhms === undefined) return undefined;
  if (alike > 1.35 * lineOhms) return "winding-high-lead";
  return low < 0.85 * lineOhms && alike < 1.2 * lineOhms ? "winding-low-pair" : undefined;
}

/** Whether the field winding of the rotor is broken, where it has one. */
export function fieldFindings(job: Job, { alternator }: Frame, found: Set<Finding>): void {
  if (alternator === "field-excited" && fieldConducts(job) === false) found.add("field-open");
}

/** Whether a winding conducts to the iron. */
export function groundFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  if (isGroundedByDesign(frame)) return;
  const leads = numberIn(job, "meter-leads") ?? 0.1;
  let lowest: number | undefined;
  for (const id of GROUND_IDS) {
    const m = job.get(id);
    if (m === undefined || m.kind === "text" || m.kind === "choice") continue;
    const ohms = m.kind === "overload" ? Infinity : m.value;
    if (ohms >= leads / 2) lowest = Math.min(lowest ?? Infinity, ohms);
  }
  const insulation = job.get("insulation");
  const megohms =
    insulation === undefined || insulation.kind === "text" || insulation.kind === "choice"
      ? undefined
      : insulation.kind === "overload"
        ? Infinity
        : insulation.value;
  if ((lowest !== undefined && lowest < 1e5) || (megohms !== undefined && megohms < 1)) found.add("winding-to-ground");
  else if (
    (lowest === undefined || lowest >= 1e6) &&
    (megohms === undefined || megohms >= 5) &&
    (lowest !== undefined || megohms !== undefined)
  )
    found.add("winding-clear-of-ground");
}
