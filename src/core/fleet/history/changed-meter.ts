import { median, quantile } from "simple-statistics";
import { roughness } from "./step";
import { METER_VOLTAGES, valueOf, type FleetVisit, type Followed, type MachineVisits } from "./types";

/** From this day on everything reads by so much higher or lower. */
export interface MeterChange {
  /** Worksheet day of the first visit with the other meter. */
  readonly day: number;
  /** Share by which the readings changed [1]; positive where they read higher. */
  readonly share: number;
  readonly machines: number;
  readonly readings: readonly Followed[];
}

/** Two meters of common accuracy (±0.5 %) may differ by as much without either being wrong [1]. */
const LEAST_SHARE = 0.01;
/** How far a whole fleet's reading drifts between visits by itself, with season and wear [1]. */
const DRIFT: Readonly<Record<(typeof METER_VOLTAGES)[number], number>> = {
  "rested-voltage": 0.006,
  "cranking-voltage": 0.015,
  "load-test-voltage": 0.015,
  "idle-voltage": 0.004,
  "test-voltage": 0.002,
};
const CLEAR = 5;
const LEAST_MACHINES = 5;
const LEAST_READINGS = 3;
/** So many of the longest series stand for all. */
const MOST_MACHINES = 400;
/** Readings on each side of a day that stand for it. */
const REACH = 3;
/** The day is looked for so far around the first find [d]. */
const AROUND = 75;
/** Two changes lie at least so far apart [d]. */
const APART = 150;

/**
 * Days on which all voltages of all machines step by the same share: nothing but another meter does
 * that. A battery moves the cranking voltage and not the running one, a regulator the other way round.
 *
 * @param machines - Machines that one person or one shop reads; of more than 400 the longest series stand for all
 */
export function fleetMeterChanges(machines: Iterable<MachineVisits>): readonly MeterChange[] {
  const series = longest(machines)
    .map(({ visits }) => visits.filter((visit) => visit.day !== undefined))
    .filter((visits) => visits.length >= 2);
  const days = [...new Set(series.flatMap((visits) => visits.map((visit) => visit.day!)))].sort((a, b) => a - b);
  const scored = days.slice(1).flatMap((day) => {
    const change = changeAt(series, day);
    return change ? [change] : [];
  });
  scored.sort((a, b) => b.score - a.score);
  const kept: (MeterChange & { score: number })[] = [];
  for (const change of scored) {
    if (kept.every((other) => Math.abs(other.day - change.day) >= APART)) kept.push(change);
  }
  return kept.map((change) => ({ ...change, day: firstDay(series, days, change) })).sort((a, b) => a.day - b.day);
}

/** The longest series; no more than twice as many as count are held at a time. */
function longest(machines: Iterable<MachineVisits>): MachineVisits[] {
  const held: MachineVisits[] = [];
  const drop = () => held.sort((a, b) => b.visits.length - a.visits.length).splice(MOST_MACHINES);
  for (const machine of machines) if (held.push(machine) >= 2 * MOST_MACHINES) drop();
  drop();
  return held;
}

/**
 * Medians of three visits step just as far a visit early or late. The day itself is where the visits
 * around it lie nearest to their own side's level, in the readings together.
 */
function firstDay(series: readonly (readonly FleetVisit[])[], days: readonly number[], { day, readings }: MeterChange) {
  const near = days.filter((other) => Math.abs(other - day) <= AROUND);
  const cost = new Map(near.map((other) => [other, 0]));
  for (const visits of series) {
    for (const reading of readings) {
      const log = (some: readonly FleetVisit[]) => logs(some, reading);
      const before = log(visits.filter((v) => v.day! < day - AROUND).slice(-REACH));
      const after = log(visits.filter((v) => v.day! > day + AROUND).slice(0, REACH));
      if (before.length === 0 || after.length === 0) continue;
      const [low, high] = [median(before), median(after)];
      for (const visit of visits) {
        const value = log([visit])[0];
        if (value === undefined || Math.abs(visit.day! - day) > AROUND) continue;
        // A repair moves one machine's reading far more than a meter: beyond a point it counts no more.
        const off = (level: number) => Math.min(0.03, Math.abs(value - level));
        for (const other of near) cost.set(other, cost.get(other)! + off(visit.day! < other ? low : high));
      }
    }
  }
  return near.reduce((best, other) => (cost.get(other)! < cost.get(best)! ? other : best), day);
}

function changeAt(series: readonly (readonly FleetVisit[])[], day: number) {
  const steps: { reading: Followed; step: number; error: number; machines: number }[] = [];
  for (const reading of METER_VOLTAGES) {
    const changes: number[] = [];
    for (const visits of series) {
      const first = visits.findIndex((visit) => visit.day! >= day);
      if (first <= 0) continue;
      const before = logs(visits.slice(Math.max(0, first - REACH), first), reading);
      const after = logs(visits.slice(first, first + REACH), reading);
      if (before.length > 0 && after.length > 0) changes.push(median(after) - median(before));
    }
    if (changes.length < LEAST_MACHINES) continue;
    const step = median(changes);
    const spread =
      1.4826 *
      quantile(
        changes.map((c) => Math.abs(c - step)),
        0.5,
      );
    steps.push({
      reading,
      step,
      error: Math.hypot((1.2533 * spread) / Math.sqrt(changes.length), DRIFT[reading]),
      machines: changes.length,
    });
  }
  const agreed = agreement(steps);
  return agreed && { day, ...agreed, machines: Math.max(...steps.map(({ machines }) => machines)) };
}

/**
 * A changed meter in one machine's series: all of its voltages step by one share at one visit.
 *
 * @returns The clearest one; `undefined` where readings step alone, or none does
 */
export function machineMeterChange({ visits }: MachineVisits): MeterChange | undefined {
  const dated = visits.filter((visit) => visit.day !== undefined);
  let best: (MeterChange & { score: number; at: number }) | undefined;
  for (let at = REACH; at <= dated.length - REACH; at++) {
    const before = dated.slice(at - REACH, at);
    const after = dated.slice(at, at + REACH);
    if (!mayStep(before, after)) continue;
    const steps = METER_VOLTAGES.flatMap((reading) => {
      const [then, now] = [logs(before, reading), logs(after, reading)];
      if (then.length < 2 || now.length < 2) return [];
      const noise = 1.2533 * roughness(logs(dated, reading)) * Math.sqrt(1 / then.length + 1 / now.length);
      return [{ reading, step: median(now) - median(then), error: Math.hypot(noise, DRIFT[reading]) }];
    });
    const agreed = agreement(steps);
    if (agreed && agreed.score > (best?.score ?? 0)) best = { day: dated[at]!.day!, ...agreed, machines: 1, at };
  }
  if (!best) return undefined;
  const { at, share, readings } = best;
  const jump = (i: number) =>
    readings.reduce((sum, reading) => {
      const [then, now] = [logs([dated[i - 1]!], reading)[0], logs([dated[i]!], reading)[0]];
      return then === undefined || now === undefined ? sum : sum + Math.sign(share) * (now - then);
    }, 0);
  const first = [at - 1, at, at + 1].reduce((most, i) => (jump(i) > jump(most) ? i : most), at);
  return { day: dated[first]!.day!, share, machines: 1, readings };
}

/** A quick look before the careful one: readings that moved the same way, none the other. */
function mayStep(before: readonly FleetVisit[], after: readonly FleetVisit[]): boolean {
  let up = 0;
  let down = 0;
  for (const reading of METER_VOLTAGES) {
    const [then, now] = [logs(before, reading), logs(after, reading)];
    if (then.length === 0 || now.length === 0) continue;
    const moved = median(now) - median(then);
    if (moved > LEAST_SHARE / 2) up += 1;
    else if (moved < -LEAST_SHARE / 2) down += 1;
  }
  return Math.max(up, down) >= 2 && Math.min(up, down) <= 1;
}

interface ReadingStep {
  readonly reading: Followed;
  readonly step: number;
  readonly error: number;
}

/** One share for all readings, each within its own error of it, and clear of zero. */
function agreement(steps: readonly ReadingStep[]) {
  if (steps.length < LEAST_READINGS) return undefined;
  const weights = steps.map(({ error }) => 1 / error ** 2);
  const whole = weights.reduce((a, b) => a + b, 0);
  const step = steps.reduce((sum, s, i) => sum + s.step * weights[i]!, 0) / whole;
  const score = Math.abs(step) * Math.sqrt(whole);
  if (Math.abs(step) < LEAST_SHARE || score < CLEAR) return undefined;
  const together = steps.every((s) => Math.abs(s.step - step) <= Math.max(3 * s.error, 0.4 * Math.abs(step)));
  // More than one reading must show it by itself.
  const shown = steps.filter((s) => Math.abs(s.step) > 2 * s.error && Math.sign(s.step) === Math.sign(step)).length;
  if (!together || shown < 2) return undefined;
  return { share: Math.expm1(step), readings: steps.map(({ reading }) => reading), score };
}

function logs(visits: readonly FleetVisit[], reading: Followed): number[] {
  return visits.flatMap((visit) => {
    const value = valueOf(visit, reading);
    return value > 0 ? [Math.log(value)] : [];
  });
}
