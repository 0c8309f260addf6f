import { numberIn } from "../readings/catalogue";
import { NO_LOAD_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import { logNormal, logSum, logThree } from "./gaussian";
import type { Frame } from "./frame";
import { hasOnePair } from "./machine-kind";
import { TURN_PATTERNS } from "./turn-patterns";

/** What the unplugged stator's AC can show: flux, and the pattern over the three pairs. */
export const OUTPUT_STATES = [
  "good",
  "weak-little",
  "weak-half",
  "weak-much",
  "turns-few",
  "turns-some",
  "turns-many",
  "lead-open",
] as const;
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
/** The same of single-phase machines: 5 to 16 V, as 28 V at 3600 rpm of a 15 A garden tractor. @source common-practice */
const ONE_PAIR_LEVEL = { centre: 9, spread: 0.35 };
/** And of half-wave charging coils: 3 to 10 V, as 14 V at 3600 rpm of a 3 A coil. @source common-practice */
const HALF_WAVE_LEVEL = { centre: 6, spread: 0.4 };
const UNBALANCE = 0.005;

interface Pattern {
  readonly share: number;
  /** log of each pair against sound; `null`: dead pair. */
  readonly logs: readonly (number | null)[];
  readonly spread: number;
}

const rotations = (logs: readonly (number | null)[], spread: number, share = 1): readonly Pattern[] =>
  [0, 1, 2].map((k) => ({
    share: share / 3,
    spread,
    logs: [logs[(3 - k) % 3]!, logs[(4 - k) % 3]!, logs[(5 - k) % 3]!],
  }));

/** Stators differ from the drawn ones: patterns are held this much looser than they came out. */
const LOOSE = 0.08;

/** Any winding may be the damaged one, and the phases may be named either way round. */
function turnPatterns(
  state: "turns-few" | "turns-some" | "turns-many",
  connection: "delta" | "wye",
  share: number,
): readonly Pattern[] {
  return TURN_PATTERNS[state][connection].flatMap(([ab, bc, ca, part, spread]) => {
    const loose = Math.hypot(spread, LOOSE * ab);
    const mirrored = connection === "wye" ? [ca, bc, ab] : [ab, ca, bc];
    return [...rotations([ab, bc, ca], loose, (share * part) / 2), ...rotations(mirrored, loose, (share * part) / 2)];
  });
}

/**
 * Share of readings that fit no drawn pattern: a probe that slipped, whatever the state; a stator that burnt in more
 * than one place, far more often. A judgement, not a count.
 */
const SLIPPED = 0.005;
const BURNT: Readonly<Partial<Record<OutputState, number>>> = {
  "turns-some": 0.05,
  "turns-many": 0.1,
  "lead-open": 0.05,
};

const SOUND: readonly Pattern[] = [{ share: 1, logs: [0, 0, 0], spread: 0 }];
const flux = (range: readonly [number, number]): readonly Pattern[] =>
  [0.1, 0.3, 0.5, 0.7, 0.9].map((p) => {
    const l = Math.log(range[0] + (range[1] - range[0]) * p);
    return { share: 0.2, logs: [l, l, l], spread: 0 };
  });

function patterns(state: OutputState, connection: "delta" | "wye" | undefined): readonly Pattern[] {
  switch (state) {
    case "good":
      return SOUND;
    case "weak-little":
    case "weak-half":
    case "weak-much":
      return flux(FLUX_LEFT[state]);
    case "lead-open":
      return rotations([null, 0, null], 0);
    default:
      return connection
        ? turnPatterns(state, connection, 1)
        : [...turnPatterns(state, "delta", 0.5), ...turnPatterns(state, "wye", 0.5)];
  }
}

const PATTERNS = new Map(
  ([undefined, "delta", "wye"] as const).map((connection) => [
    connection,
    OUTPUT_STATES.map((state) => patterns(state, connection)),
  ]),
);

const ALIVE = Math.log(0.99);
const ODD = Math.log(1e-3);

export interface NoLoadReadings {
  readonly pairs: readonly (number | undefined)[];
  readonly rpm: number | undefined;
}

export function noLoadReadings(job: Job): NoLoadReadings | undefined {
  const first = { pairs: NO_LOAD_IDS.map((id) => numberIn(job, id)), rpm: numberIn(job, "no-load-rpm") };
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
  const trade = frame.alternator === "half-wave" ? HALF_WAVE_LEVEL : hasOnePair(frame) ? ONE_PAIR_LEVEL : TRADE_LEVEL;
  const perKrpm = frame.emfPerKrpm ?? trade.centre / frame.voltScale;
  const levelSpread = frame.emfPerKrpm === undefined ? trade.spread : LEVEL_SPREAD;
  const expected = read.rpm === undefined ? undefined : (perKrpm * read.rpm) / 1000;
  const top = Math.max(...read.pairs.map((p) => p ?? 0), 0.5);
  return PATTERNS.get(frame.connection)!.map((list, state) => {
    const unlike = BURNT[OUTPUT_STATES[state]!] ?? SLIPPED;
    const logs = list.map((p) => Math.log(p.share) + patternLog(read.pairs, p, expected, levelSpread, top));
    return logSum([Math.log(1 - unlike) + logSum(logs), Math.log(unlike) + oddLog(read.pairs, expected ?? top)]);
  });
}

function patternLog(
  pairs: readonly (number | undefined)[],
  pattern: Pattern,
  expected: number | undefined,
  levelSpread: number,
  top: number,
): number {
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
  return (
    log +
    logThree([residual[0] - level, residual[1] - level, residual[2] - level], own, [spread, spread, spread], [0, 0, 0])
  );
}

function oddLog(pairs: readonly (number | undefined)[], expected: number): number {
  return pairs.reduce(
    (log: number, volts) =>
      volts === undefined
        ? log
        : log + logNormal(Math.log(Math.max(volts, 0.01) / expected), 1.5) - Math.log(Math.max(volts, 0.01)),
    0,
  );
}
