import { numberIn } from "../readings/catalogue";
import { PAIRS } from "../readings/entries";
import type { Job } from "../readings/types";
import { logNormal, logSum, logThree } from "./gaussian";
import type { Frame } from "./frame";

/** What the unplugged stator's AC can show: flux, and the pattern over the three pairs. */
export const OUTPUT_STATES = ["good", "weak-little", "weak-half", "weak-much", "turns-few", "turns-some", "turns-many", "lead-open"] as const;
export type OutputState = (typeof OUTPUT_STATES)[number];

/** Share of the flux that is left, per state. */
export const FLUX_LEFT: Readonly<Record<"weak-little" | "weak-half" | "weak-much", readonly [number, number]>> = {
  "weak-little": [0.65, 0.82],
  "weak-half": [0.5, 0.65],
  "weak-much": [0.3, 0.5],
};

/** Machine to machine and tachometer, one standard deviation: magnets ±6 %, speed ±3 %. */
const LEVEL_SPREAD = 0.045;
/** Volts per 1000 rpm where the plate is silent: trade rule, 12 to 25 V. */
const TRADE_LEVEL = { centre: 19, spread: 0.22 };
const UNBALANCE = 0.005;

interface Pattern {
  readonly share: number;
  /** log of each pair against sound; `null`: dead pair. */
  readonly logs: readonly (number | null)[];
  readonly spread: number;
}

const rotations = (logs: readonly (number | null)[], spread: number, share = 1): readonly Pattern[] =>
  [0, 1, 2].map((k) => ({ share: share / 3, spread, logs: [logs[(3 - k) % 3]!, logs[(4 - k) % 3]!, logs[(5 - k) % 3]!] }));

/**
 * Shorted turns lower one winding's voltage by `g` and lean it in phase. Wye: both pairs of that
 * phase fall by about half, one more than the other; delta: its own pair falls.
 */
function turnPatterns(sizes: readonly number[]): readonly Pattern[] {
  const out: Pattern[] = [];
  for (const g of sizes) {
    const spread = 0.22 * g;
    out.push(...rotations([-0.7 * g, 0, -0.5 * g], spread, 0.25 / sizes.length), ...rotations([-0.5 * g, 0, -0.7 * g], spread, 0.25 / sizes.length));
    out.push(...rotations([-1.2 * g, -0.1 * g, 0], spread, 0.25 / sizes.length), ...rotations([-1.2 * g, 0, -0.1 * g], spread, 0.25 / sizes.length));
  }
  return out;
}

const SOUND: readonly Pattern[] = [{ share: 1, logs: [0, 0, 0], spread: 0 }];
const flux = (range: readonly [number, number]): readonly Pattern[] =>
  [0.1, 0.3, 0.5, 0.7, 0.9].map((p) => {
    const l = Math.log(range[0] + (range[1] - range[0]) * p);
    return { share: 0.2, logs: [l, l, l], spread: 0 };
  });

const PATTERNS: Readonly<Record<OutputState, readonly Pattern[]>> = {
  good: SOUND,
  "weak-little": flux(FLUX_LEFT["weak-little"]),
  "weak-half": flux(FLUX_LEFT["weak-half"]),
  "weak-much": flux(FLUX_LEFT["weak-much"]),
  "turns-few": turnPatterns([0.05, 0.08, 0.12]),
  "turns-some": turnPatterns([0.12, 0.18, 0.26]),
  "turns-many": turnPatterns([0.26, 0.36, 0.5]),
  "lead-open": rotations([null, 0, null], 0),
};

const ALIVE = Math.log(0.99);
const ODD = Math.log(1e-3);

export interface NoLoadReadings {
  readonly pairs: readonly (number | undefined)[];
  readonly rpm: number | undefined;
}

export function noLoadReadings(job: Job): NoLoadReadings | undefined {
  const first = { pairs: PAIRS.map((p) => numberIn(job, `no-load-${p}`)), rpm: numberIn(job, "no-load-rpm") };
  return first.pairs.some((p) => p !== undefined) ? first : undefined;
}

/**
 * How well each output state explains the no-load AC.
 *
 * @returns Log likelihood per state in the order of `OUTPUT_STATES`; `undefined` where none was read
 */
export function noLoadEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  const read = noLoadReadings(job);
  if (!read) return undefined;
  const perKrpm = frame.emfPerKrpm ?? TRADE_LEVEL.centre;
  const levelSpread = frame.emfPerKrpm === undefined ? TRADE_LEVEL.spread : LEVEL_SPREAD;
  const expected = read.rpm === undefined ? undefined : (perKrpm * read.rpm) / 1000;
  const top = Math.max(...read.pairs.map((p) => p ?? 0), 0.5);
  return OUTPUT_STATES.map((state) => {
    const logs = PATTERNS[state].map((p) => Math.log(p.share) + patternLog(read.pairs, p, expected, levelSpread, top));
    return logSum([Math.log(0.995) + logSum(logs), Math.log(0.005) + oddLog(read.pairs, expected ?? top)]);
  });
}

function patternLog(pairs: readonly (number | undefined)[], pattern: Pattern, expected: number | undefined, levelSpread: number, top: number): number {
  let log = 0;
  let sum = 0;
  let count = 0;
  const residual: [number, number, number] = [Number.NaN, Number.NaN, Number.NaN];
  const own: [number, number, number] = [1, 1, 1];
  for (let i = 0; i < 3; i++) {
    const volts = pairs[i];
    const shape = pattern.logs[i]!;
    if (volts === undefined) continue;
    // A dead pair shows pick-up at most.
    const dead = volts < Math.max(0.03 * top, 0.5);
    if (shape === null) {
      log += dead ? ALIVE : ODD;
      continue;
    }
    if (dead) {
      log += ODD;
      continue;
    }
    const logVolts = Math.log(volts);
    log -= logVolts;
    residual[i] = logVolts - shape;
    own[i] = (0.17 / volts) ** 2 + UNBALANCE ** 2 + pattern.spread ** 2;
    sum += residual[i]!;
    count += 1;
  }
  if (count === 0) return log;
  // Without a speed the level says nothing: it is centred on what was read, with a wide spread.
  const level = expected === undefined ? sum / count : Math.log(expected);
  const spread = expected === undefined ? 1 : levelSpread;
  return log + logThree([residual[0] - level, residual[1] - level, residual[2] - level], own, [spread, spread, spread], [0, 0, 0]);
}

function oddLog(pairs: readonly (number | undefined)[], expected: number): number {
  return pairs.reduce((log: number, volts) => (volts === undefined ? log : log + logNormal(Math.log(Math.max(volts, 0.01) / expected), 1.5) - Math.log(Math.max(volts, 0.01))), 0);
}
