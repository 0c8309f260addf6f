import { numberIn } from "../readings/catalogue";
import { WINDING_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import { logGrid, logSum, logThree } from "./gaussian";
import type { Frame } from "./frame";

/** What the three line-to-line resistances can show of the stator and its leads up to the plug. */
export const WINDING_STATES = [
  "good",
  "turns-few",
  "turns-some",
  "turns-many",
  "lead-open",
  "delta-winding-open",
  "joint",
] as const;
export type WindingState = (typeof WINDING_STATES)[number];

/** Shares of a winding's turns that are shorted, per state. */
export const TURN_SHARES: Readonly<Record<"turns-few" | "turns-some" | "turns-many", readonly [number, number]>> = {
  "turns-few": [0.03, 0.1],
  "turns-some": [0.1, 0.25],
  "turns-many": [0.25, 0.55],
};

const ODD = Math.log(1e-3);
const OPEN_SEEN = Math.log(0.98);
/** From plate to stator: winding and temperature together, one standard deviation. */
const LEVEL_SPREAD = 0.06;
/** A joint adds this share of the winding's own resistance. */
const JOINT = logGrid(0.15, 4, 9);

interface Shape {
  /** Expected readings of AB, BC, CA as multiples of the sound line-to-line resistance; `null` = open. */
  readonly pairs: readonly (number | null)[];
  readonly share: number;
}

const rotate = (pairs: readonly (number | null)[]) =>
  [0, 1, 2].map((k) => [pairs[(3 - k) % 3]!, pairs[(4 - k) % 3]!, pairs[(5 - k) % 3]!] as readonly (number | null)[]);
const shapes = (list: readonly (readonly (number | null)[])[]): readonly Shape[] =>
  list.map((pairs) => ({ pairs, share: 1 / list.length }));

function turnShapes([low, high]: readonly [number, number], connection: Frame["connection"]): readonly Shape[] {
  const list: (readonly (number | null)[])[] = [];
  for (const f of logGrid(low, high, 4)) {
    if (connection !== "delta") list.push(...rotate([1 - f / 2, 1, 1 - f / 2]));
    // Delta: one side of the triangle is (1 − f) of 1.5 line values, across the other two in series.
    if (connection !== "wye") {
      const side = 1.5 * (1 - f);
      const across = (side * 3) / (side + 3);
      const beside = (1.5 * (1.5 + side)) / (3 + side);
      list.push(...rotate([across, beside, beside]));
    }
  }
  return shapes(list);
}

function shapesOf(state: WindingState, connection: Frame["connection"]): readonly Shape[] {
  switch (state) {
    case "good":
      return shapes([[1, 1, 1]]);
    case "turns-few":
    case "turns-some":
    case "turns-many":
      return turnShapes(TURN_SHARES[state], connection);
    case "lead-open":
      return shapes(rotate([null, 1, null]));
    case "delta-winding-open":
      return shapes(rotate([3, 1.5, 1.5]));
    case "joint":
      return shapes(JOINT.flatMap((r) => rotate([1 + r, 1, 1 + r])));
  }
}

const TABLE = new Map(
  ([undefined, "wye", "delta"] as const).map((connection) => [
    connection,
    WINDING_STATES.map((s) => shapesOf(s, connection)),
  ]),
);

/** Lead resistance of a common ohmmeter where nobody shorted the leads: 0.1 to 0.3 Ω, common practice. */
const LEADS = { centre: 0.2, spread: 0.06 };

export interface OhmReadings {
  /** Line-to-line as the meter showed, leads included; `"over"` for OL [Ω]. */
  readonly pairs: readonly (number | "over" | undefined)[];
  readonly leads: number;
  readonly leadsSpread: number;
  /** Smallest step of the display [Ω]. */
  readonly step: number;
}

export function ohmReadings(job: Job): OhmReadings | undefined {
  const pairs = WINDING_IDS.map((id) => {
    const m = job.get(id);
    if (m === undefined) return undefined;
    if (m.kind === "overload" || m.kind === "above") return "over";
    // Hundreds of ohms between two lines is no winding any more.
    return m.kind === "number" ? (m.value > 1000 ? "over" : m.value) : undefined;
  });
  if (pairs.every((p) => p === undefined)) return undefined;
  const typedStep = WINDING_IDS.map((id) => job.get(id)).find(
    (m) => m?.kind === "number" && m.resolution !== undefined,
  );
  const step =
    numberIn(job, "meter-ohm-step") ?? (typedStep?.kind === "number" ? typedStep.resolution : undefined) ?? 0.1;
  const shorted = numberIn(job, "meter-leads");
  return {
    pairs,
    leads: shorted ?? LEADS.centre,
    leadsSpread: shorted === undefined ? LEADS.spread : (2 * step) / Math.sqrt(3),
    step,
  };
}

/** Standard deviation of one ohm reading: two counts, and the rounding of the display. */
export function ohmReadingSpread(step: number): number {
  return step * Math.sqrt(4 / 3 + 1 / 12);
}

/** Temperature of the stator when its resistance was read, against 20 °C: a bench stator is rarely cold. */
function warmth(job: Job): { readonly factor: number; readonly spread: number } {
  const measured = numberIn(job, "stator-temperature");
  if (measured !== undefined) return { factor: 1 + 0.00393 * (measured - 20), spread: 0.012 };
  const ambient = numberIn(job, "battery-temperature") ?? 20;
  return { factor: 1 + 0.00393 * (ambient + 15 - 20), spread: 0.035 };
}

/**
 * How well each winding state explains the three resistances; leads, winding temperature, place and
 * size of the defect are integrated out.
 *
 * @returns Log likelihood per state in the order of `WINDING_STATES`; `undefined` where none was read
 */
export function windingEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  const read = ohmReadings(job);
  if (!read) return undefined;
  const { factor, spread } = warmth(job);
  const bases = basesFor(frame, read);
  const gain = 0.005;
  return TABLE.get(frame.connection)!.map((list) => {
    const logs: number[] = [];
    for (const { ohms, share, width } of bases) {
      const warm = ohms * factor;
      const level = Math.hypot(width, spread, gain);
      for (const shape of list) logs.push(Math.log(shape.share * share) + shapeLog(read, shape, warm, level));
    }
    return logSum([Math.log(0.995) + logSum(logs), Math.log(0.005) + oddLog(read)]);
  });
}

/** Sound line-to-line resistance at 20 °C: from the plate, or any size that windings come in. */
function basesFor(frame: Frame, read: OhmReadings): readonly { ohms: number; share: number; width: number }[] {
  if (frame.lineOhms !== undefined) return [{ ohms: frame.lineOhms, share: 1, width: LEVEL_SPREAD }];
  const seen = read.pairs
    .filter((p): p is number => typeof p === "number")
    .map((p) => Math.max(p - read.leads, read.step));
  if (seen.length === 0) return [{ ohms: 0.7, share: 1, width: 0.5 }];
  // Without a plate value only the pattern speaks: a flat spread of sizes around what was read.
  const low = Math.min(...seen) / 3.2;
  const high = Math.max(...seen) * 1.6;
  const count = 13;
  const width = Math.log(high / low) / (count - 1);
  return logGrid(low, high, count).map((ohms) => ({ ohms, share: width / Math.log(300), width: width / 2 + 0.02 }));
}

function shapeLog(read: OhmReadings, shape: Shape, ohms: number, level: number): number {
  let log = 0;
  const residual: [number, number, number] = [Number.NaN, Number.NaN, Number.NaN];
  const weights: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < 3; i++) {
    const pair = read.pairs[i];
    const expected = shape.pairs[i]!;
    if (pair === undefined) continue;
    if (expected === null) log += pair === "over" ? OPEN_SEEN : ODD;
    else if (pair === "over") log += ODD;
    else {
      residual[i] = pair - read.leads - ohms * expected;
      weights[i] = ohms * expected * level;
    }
  }
  const own = ohmReadingSpread(read.step) ** 2 + (0.004 * ohms) ** 2;
  const leads = read.leadsSpread;
  return log + logThree(residual, [own, own, own], weights, [leads, leads, leads]);
}

/** A set of readings that nothing explains: flat over a decade of size. */
function oddLog(read: OhmReadings): number {
  return read.pairs.reduce(
    (log: number, p) =>
      log + (p === undefined ? 0 : p === "over" ? Math.log(0.2) : Math.log(0.3) - Math.log(Math.max(p, 0.1) * 2)),
    0,
  );
}
