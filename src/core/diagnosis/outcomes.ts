import type { Frame } from "./frame";
import type { Finding } from "./findings";
import { HYPOTHESES, type Hypothesis, type Placed } from "./hypotheses";
import { chancesBelow, coordinateOf, SIGNATURE_COUNT, type Situation } from "./signatures";
import { crankingFeature, unevenness, type Feature } from "./running-features";

/** One thing that a check can show, coarse enough to be said in a sentence. */
export interface Outcome {
  readonly words: string;
  /** What it shows for itself, where that can prove or clear a part. */
  readonly findings: readonly Finding[];
}

/**
 * Chances of a check's outcomes under some signatures, a row each; they sum to 1.
 *
 * @param x - The job as the signatures look at it: what it knows narrows what is foretold
 * @param into - Gets them, the row of each signature at its own place
 */
export type Foretold = (frame: Frame, x: Situation, signatures: Int32Array, into: Float64Array) => void;

interface Check {
  readonly check: string;
  readonly outcomes: readonly Outcome[];
}

/** A check of one part for itself: nothing but that part's state counts. */
export interface StateCheck extends Check {
  /** State of each hypothesis, in the order of `HYPOTHESES`. */
  readonly states: Int32Array;
  /** Chances of the outcomes, a row a state. */
  readonly table: Float64Array;
}

/** A check that reads battery or running machine: hypotheses of one signature foretell the same. */
export interface RunningCheck extends Check {
  readonly foretold: Foretold;
}

export type CheckOutcomes = StateCheck | RunningCheck;

export const outcome = (words: string, ...findings: Finding[]): Outcome => ({ words, findings });
/** A clear-cut state shows itself nearly always; what slips is spread over the other outcomes. */
export const clear = (index: number, count: number, sure = 0.97) =>
  Array.from({ length: count }, (_, i) => (i === index ? sure : (1 - sure) / (count - 1)));

const DRAW_SHOWS = { normal: clear(0, 2), high: clear(1, 2) };
const GROUND_SHOWS = { clear: clear(0, 2, 0.99), leak: clear(1, 2, 0.99) };
const CONNECTOR_SHOWS = { sound: clear(0, 2, 0.98), burnt: clear(1, 2, 0.98) };
const rectifierShows = (index: number) => clear(index, 4, 0.985);

/** Where nothing but the part's state counts: the chances as they stand in a table. */
export function byState<S extends string>(
  stateOf: (h: Placed) => S,
  table: Readonly<Record<S, readonly number[]>>,
): Pick<StateCheck, "states" | "table"> {
  const names = Object.keys(table) as S[];
  return {
    states: Int32Array.from(HYPOTHESES, (h) => names.indexOf(stateOf(h))),
    table: Float64Array.from(names.flatMap((name) => table[name])),
  };
}
/** Chances of the intervals of a feature between the edges, and beyond them. */
const bins = (feature: Feature, edges: (frame: Frame) => readonly number[]): Foretold => {
  const coordinate = coordinateOf(feature);
  return (frame, x, signatures, into) => {
    const ends = edges(frame);
    const count = ends.length + 1;
    for (let e = 0; e < ends.length; e++) chancesBelow(signatures, coordinate, x, ends[e]!, into, count, e);
    for (let i = 0; i < signatures.length; i++) between(into, signatures[i]! * count, count);
  };
};
/** Chances of the intervals, from those to lie below each edge but the last. */
const between = (out: Float64Array, at: number, count: number) => {
  const last = at + count - 1;
  out[last] = 1;
  for (let i = last; i > at; i--) out[i] = out[i]! - out[i - 1]!;
  shares(out, at, count);
};
/** Nothing is impossible, and all together is one. */
const shares = (out: Float64Array, at: number, count: number) => {
  let total = 0;
  for (let i = at; i < at + count; i++) total += out[i] = Math.max(out[i]!, 1e-4);
  for (let i = at; i < at + count; i++) out[i] = out[i]! / total;
};
const RECHARGED_REST = coordinateOf("recharged-rest");
const LOAD_RESISTANCE = coordinateOf("load-resistance");
const LOADED_LOWEST = coordinateOf("loaded-lowest");
const LOADED_MIDDLE = coordinateOf("loaded-middle");
const LOADED_HIGHEST = coordinateOf("loaded-highest");
const BPLUS_DROP = coordinateOf("bplus-drop");
const GROUND_DROP = coordinateOf("ground-drop");
/** Unevenness of the AC under load from which on the eye sees it: one pair 15 % below the highest. */
const UNEVEN = unevenness(0.15);

/** Which of the four outcomes the unplugged regulator-rectifier shows: in order, open, shorted, a leg open. */
const RECTIFIER_SHOWS: Readonly<Record<Hypothesis["rectifier"], readonly number[]>> = {
  good: rectifierShows(0),
  "open-masked": rectifierShows(0),
  "upper-open": rectifierShows(1),
  "lower-open": rectifierShows(1),
  "upper-shorted": rectifierShows(2),
  "lower-shorted": rectifierShows(2),
  "leg-open": rectifierShows(3),
};

/** How often three resistances show each state: even, open, one winding low, one lead high. */
const WINDING_SHOWS: Readonly<Record<Hypothesis["winding"], readonly number[]>> = {
  good: [0.96, 0.005, 0.02, 0.015],
  "turns-few": [0.75, 0.005, 0.23, 0.015],
  "turns-some": [0.4, 0.005, 0.58, 0.015],
  "turns-many": [0.1, 0.01, 0.87, 0.02],
  "lead-open": [0.01, 0.98, 0.005, 0.005],
  "delta-winding-open": [0.02, 0.95, 0.01, 0.02],
  joint: [0.1, 0.03, 0.02, 0.85],
};
/** How often the no-load AC shows each state: full and even, low, uneven, dead pairs. */
const OUTPUT_SHOWS: Readonly<Record<Hypothesis["output"], readonly number[]>> = {
  good: [0.97, 0.01, 0.015, 0.005],
  "weak-little": [0.3, 0.68, 0.015, 0.005],
  "weak-half": [0.03, 0.95, 0.015, 0.005],
  "weak-much": [0.01, 0.97, 0.015, 0.005],
  "turns-few": [0.25, 0.01, 0.735, 0.005],
  "turns-some": [0.02, 0.01, 0.96, 0.01],
  "turns-many": [0.01, 0.02, 0.96, 0.01],
  "lead-open": [0.01, 0.01, 0.02, 0.96],
};

const REST_EDGES = [-1.75, -0.25];
/** Resistance times cranking amperes from which on a load test fails [log V]. */
const LOAD_FAILS = Math.log(9);
/** Drops from which on a run is spoken of as large [log V]. */
const BPLUS_LARGE = Math.log(0.75);
const GROUND_LARGE = Math.log(0.6);
/** Shares of the AC under load held down, low and free under each signature, while they are worked out. */
const LOADED = new Float64Array(3 * SIGNATURE_COUNT);
const LOADED_EDGES = [Math.log(6), Math.log(16)];
/** AC between lines with the stator unplugged [V], where the machine's data tells it. */
const acUnplugged = ({ emfPerKrpm, voltScale, testRpm }: Frame) =>
  emfPerKrpm === undefined || testRpm === undefined ? undefined : (emfPerKrpm * voltScale * testRpm) / 1000;

export const CHECK_OUTCOMES: readonly CheckOutcomes[] = [
  {
    check: "battery-at-rest",
    outcomes: [outcome("about 2 V missing"), outcome("discharged"), outcome("charged", "rest-sound")],
    foretold: bins("rest", () => REST_EDGES),
  },
  {
    check: "load-test",
    outcomes: [
      outcome("holds its voltage", "load-test-passes", "rest-sound"),
      outcome("collapses", "load-test-fails"),
      outcome("2 V missing after charging", "cell-missing"),
    ],
    foretold: (_, x, signatures, out) => {
      chancesBelow(signatures, LOAD_RESISTANCE, x, LOAD_FAILS, out, 3, 1);
      chancesBelow(signatures, RECHARGED_REST, x, -1.3, out, 3, 2);
      for (let i = 0; i < signatures.length; i++) {
        const at = signatures[i]! * 3;
        const cell = out[at + 2]!;
        const fails = (1 - cell) * (1 - out[at + 1]!);
        out[at] = 1 - cell - fails;
        out[at + 1] = fails;
        shares(out, at, 3);
      }
    },
  },
  {
    check: "cranking",
    outcomes: [outcome("over 9.6 V"), outcome("8 to 9.6 V"), outcome("under 8 V", "cranking-collapses")],
    foretold: bins("cranking", (f) => [crankingFeature(9.6, f), crankingFeature(8, f)]),
  },
  {
    check: "key-off-draw",
    outcomes: [outcome("within what is allowed", "draw-normal"), outcome("above what is allowed", "draw-high")],
    ...byState((h) => h.draw, DRAW_SHOWS),
  },
  {
    check: "running-idle",
    outcomes: [
      outcome("hardly above the battery's own voltage"),
      outcome("below the regulated band"),
      outcome("in the regulated band"),
    ],
    foretold: bins("idle", (f) => [12.4, f.regulatedMin]),
  },
  {
    check: "running-test",
    outcomes: [
      outcome("no charging voltage", "no-output-at-speed"),
      outcome("below the band", "no-output-at-speed"),
      outcome("in the band", "voltage-in-band"),
      outcome("above the band", "over-voltage"),
    ],
    foretold: bins("test", (f) => [12.6, f.regulatedMin - 0.25, f.regulatedMax + 0.12]),
  },
  {
    check: "no-load-ac",
    outcomes: [
      outcome("full and even", "no-load-full"),
      outcome("low on all pairs alike", "no-load-low"),
      outcome("uneven", "no-load-uneven"),
      outcome("dead pairs", "no-load-dead-pair"),
    ],
    ...byState((h) => h.output, OUTPUT_SHOWS),
  },
  {
    check: "winding-ohms",
    outcomes: [
      outcome("three alike", "winding-even"),
      outcome("an open winding or lead", "winding-open"),
      outcome("one winding low", "winding-low-pair"),
      outcome("one lead high", "winding-high-lead"),
    ],
    ...byState((h) => h.winding, WINDING_SHOWS),
  },
  {
    check: "winding-to-ground",
    outcomes: [outcome("clear", "winding-clear-of-ground"), outcome("a path to ground", "winding-to-ground")],
    ...byState((h) => h.ground, GROUND_SHOWS),
  },
  {
    check: "loaded-ac",
    outcomes: [
      outcome("even", "loaded-even"),
      outcome("held down on all phases", "loaded-all-held-down"),
      outcome("one phase held down", "loaded-phase-held-down"),
      outcome("uneven"),
      outcome("as high as unplugged", "loaded-as-unplugged"),
    ],
    foretold: (frame, x, signatures, out) => {
      for (let e = 0; e < 2; e++) chancesBelow(signatures, LOADED_HIGHEST, x, LOADED_EDGES[e]!, LOADED, 3, e);
      chancesBelow(signatures, LOADED_LOWEST, x, UNEVEN, out, 5, 0);
      chancesBelow(signatures, LOADED_MIDDLE, x, UNEVEN, out, 5, 2);
      const unplugged = acUnplugged(frame);
      if (unplugged !== undefined) chancesBelow(signatures, LOADED_HIGHEST, x, Math.log(0.75 * unplugged), out, 5, 4);
      for (let i = 0; i < signatures.length; i++) {
        const at = signatures[i]! * 5;
        const down = signatures[i]! * 3;
        between(LOADED, down, 3);
        const even = out[at]!;
        const oneDown = LOADED[down + 1]! * (1 - out[at + 2]!);
        const up = 1 - LOADED[down]!;
        const free = unplugged === undefined ? 0 : (1 - out[at + 4]!) * even;
        out[at] = up * even - free;
        out[at + 1] = LOADED[down]!;
        out[at + 2] = oneDown;
        out[at + 3] = up * (1 - even) - oneDown;
        out[at + 4] = free;
        shares(out, at, 5);
      }
    },
  },
  {
    check: "diode-check",
    outcomes: [
      outcome("all six in order", "devices-conduct-and-block"),
      outcome("one device open", "device-open"),
      outcome("one device shorted", "device-shorted"),
      outcome("one leg open", "leg-open"),
    ],
    ...byState((h) => h.rectifier, RECTIFIER_SHOWS),
  },
  {
    check: "voltage-drops",
    outcomes: [
      outcome("both runs small", "bplus-drop-normal", "ground-drop-normal"),
      outcome("large in the B+ run", "bplus-drop-high"),
      outcome("large in the ground run", "ground-drop-high"),
    ],
    foretold: (_, x, signatures, out) => {
      chancesBelow(signatures, BPLUS_DROP, x, BPLUS_LARGE, out, 3, 1);
      chancesBelow(signatures, GROUND_DROP, x, GROUND_LARGE, out, 3, 2);
      for (let i = 0; i < signatures.length; i++) {
        const at = signatures[i]! * 3;
        const bplus = 1 - out[at + 1]!;
        const ground = (1 - bplus) * (1 - out[at + 2]!);
        out[at] = 1 - bplus - ground;
        out[at + 1] = bplus;
        out[at + 2] = ground;
        shares(out, at, 3);
      }
    },
  },
  {
    check: "phase-drops",
    outcomes: [outcome("all small"), outcome("volts across one connector", "connector-drop-high")],
    ...byState((h) => h.connector, CONNECTOR_SHOWS),
  },
  {
    check: "key-on-load",
    outcomes: [outcome("as expected", "key-on-normal"), outcome("far above what is expected", "key-on-high")],
    foretold: bins("key-on-load", (f) => [f.load === undefined ? 0.85 : (1.3 * f.load) / f.voltScale / f.ratedAmps]),
  },
];
