import type { Frame } from "./frame";
import type { Finding } from "./findings";
import type { Hypothesis, Placed } from "./hypotheses";
import { chanceBelow, signatureOf, type Situation } from "./signatures";
import { crankingFeature, unevenness, type Feature } from "./running-features";

/** One thing that a check can show, coarse enough to be said in a sentence. */
export interface Outcome {
  readonly words: string;
  /** What it shows for itself, where that can prove or clear a part. */
  readonly findings: readonly Finding[];
}

export interface CheckOutcomes {
  readonly check: string;
  readonly outcomes: readonly Outcome[];
  /** Chance of each outcome under a hypothesis, written into `out` from `at` on; they sum to 1. */
  readonly chances: (h: Placed, frame: Frame, situation: Situation, out: Float64Array, at: number) => void;
  /** What `chances` looks at of a hypothesis: those with one answer have the same chances. */
  readonly seenAs: (h: Placed) => string | number;
}

const outcome = (words: string, ...findings: Finding[]): Outcome => ({ words, findings });
/** A clear-cut state shows itself nearly always; what slips is spread over the other outcomes. */
const clear = (index: number, count: number, sure = 0.97) =>
  Array.from({ length: count }, (_, i) => (i === index ? sure : (1 - sure) / (count - 1)));

const DRAW_SHOWS = { normal: clear(0, 2), high: clear(1, 2) };
const GROUND_SHOWS = { clear: clear(0, 2, 0.99), leak: clear(1, 2, 0.99) };
const CONNECTOR_SHOWS = { sound: clear(0, 2, 0.98), burnt: clear(1, 2, 0.98) };
const RECTIFIER_SHOWS = [0, 1, 2, 3].map((index) => clear(index, 4, 0.985));

/** Where nothing but the part's state counts: the chances as they stand in a table. */
const shows = (table: (h: Placed) => readonly number[]): CheckOutcomes["chances"] => {
  return (h, _f, _x, out, at) => {
    const chances = table(h);
    for (let i = 0; i < chances.length; i++) out[at + i] = chances[i]!;
  };
};
/** Chances of the intervals of a feature between the edges, and beyond them. */
const bins = (feature: Feature, edges: (frame: Frame) => readonly number[]): CheckOutcomes["chances"] => {
  return (h, frame, x, out, at) => {
    const ends = edges(frame);
    for (let i = 0; i < ends.length; i++) out[at + i] = chanceBelow(h, feature, x, ends[i]!);
    out[at + ends.length] = 1;
    for (let i = at + ends.length; i > at; i--) out[i] = out[i]! - out[i - 1]!;
    shares(out, at, ends.length + 1);
  };
};
/** Nothing is impossible, and all together is one. */
const shares = (out: Float64Array, at: number, count: number) => {
  let total = 0;
  for (let i = at; i < at + count; i++) total += out[i] = Math.max(out[i]!, 1e-4);
  for (let i = at; i < at + count; i++) out[i] = out[i]! / total;
};
/** Unevenness of the AC under load from which on the eye sees it: one pair 15 % below the highest. */
const UNEVEN = unevenness(0.15);

const RECTIFIER_INDEX: Readonly<Record<Hypothesis["rectifier"], number>> = {
  good: 0,
  "open-masked": 0,
  "upper-open": 1,
  "lower-open": 1,
  "upper-shorted": 2,
  "lower-shorted": 2,
  "leg-open": 3,
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
/** Shares of the AC under load held down, low and free, while they are worked out. */
const LOADED = new Float64Array(3);
const LOADED_EDGES = [Math.log(6), Math.log(16)];
const loadedHighest = bins("loaded-highest", () => LOADED_EDGES);

export const CHECK_OUTCOMES: readonly CheckOutcomes[] = [
  {
    check: "battery-at-rest",
    outcomes: [outcome("about 2 V missing", "cell-missing"), outcome("discharged"), outcome("charged", "rest-sound")],
    chances: bins("rest", () => REST_EDGES),
    seenAs: signatureOf,
  },
  {
    check: "load-test",
    outcomes: [
      outcome("holds its voltage", "load-test-passes", "rest-sound"),
      outcome("collapses", "load-test-fails"),
      outcome("2 V missing after charging", "cell-missing"),
    ],
    chances: (h, _f, x, out, at) => {
      const cell = chanceBelow(h, "recharged-rest", x, -1.3);
      const fails = (1 - cell) * (1 - chanceBelow(h, "load-resistance", x, Math.log(9)));
      out[at] = 1 - cell - fails;
      out[at + 1] = fails;
      out[at + 2] = cell;
      shares(out, at, 3);
    },
    seenAs: signatureOf,
  },
  {
    check: "cranking",
    outcomes: [outcome("over 9.6 V"), outcome("8 to 9.6 V"), outcome("under 8 V", "cranking-collapses")],
    chances: bins("cranking", (f) => [crankingFeature(9.6, f), crankingFeature(8, f)]),
    seenAs: signatureOf,
  },
  {
    check: "key-off-draw",
    outcomes: [outcome("within what is allowed", "draw-normal"), outcome("above what is allowed", "draw-high")],
    chances: shows((h) => DRAW_SHOWS[h.draw]),
    seenAs: (h) => h.draw,
  },
  {
    check: "running-idle",
    outcomes: [
      outcome("hardly above the battery's own voltage"),
      outcome("below the regulated band"),
      outcome("in the regulated band"),
    ],
    chances: bins("idle", (f) => [12.4, f.regulatedMin]),
    seenAs: signatureOf,
  },
  {
    check: "running-test",
    outcomes: [
      outcome("no charging voltage", "no-output-at-speed"),
      outcome("below the band", "no-output-at-speed"),
      outcome("in the band", "voltage-in-band"),
      outcome("above the band", "over-voltage"),
    ],
    chances: bins("test", (f) => [12.6, f.regulatedMin - 0.25, f.regulatedMax + 0.12]),
    seenAs: signatureOf,
  },
  {
    check: "no-load-ac",
    outcomes: [
      outcome("full and even", "no-load-full"),
      outcome("low on all pairs alike", "no-load-low"),
      outcome("uneven", "no-load-uneven"),
      outcome("dead pairs", "no-load-dead-pair"),
    ],
    chances: shows((h) => OUTPUT_SHOWS[h.output]),
    seenAs: (h) => h.output,
  },
  {
    check: "winding-ohms",
    outcomes: [
      outcome("three alike", "winding-even"),
      outcome("an open winding or lead", "winding-open"),
      outcome("one winding low", "winding-low-pair"),
      outcome("one lead high", "winding-high-lead"),
    ],
    chances: shows((h) => WINDING_SHOWS[h.winding]),
    seenAs: (h) => h.winding,
  },
  {
    check: "winding-to-ground",
    outcomes: [outcome("clear", "winding-clear-of-ground"), outcome("a path to ground", "winding-to-ground")],
    chances: shows((h) => GROUND_SHOWS[h.ground]),
    seenAs: (h) => h.ground,
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
    chances: (h, f, x, out, at) => {
      loadedHighest(h, f, x, LOADED, 0);
      const even = chanceBelow(h, "loaded-lowest", x, UNEVEN);
      const oneDown = LOADED[1]! * (1 - chanceBelow(h, "loaded-middle", x, UNEVEN));
      const up = 1 - LOADED[0]!;
      const unplugged =
        f.emfPerKrpm === undefined || f.testRpm === undefined
          ? Infinity
          : (f.emfPerKrpm * f.voltScale * f.testRpm) / 1000;
      const free = Number.isFinite(unplugged)
        ? (1 - chanceBelow(h, "loaded-highest", x, Math.log(0.75 * unplugged))) * even
        : 0;
      out[at] = up * even - free;
      out[at + 1] = LOADED[0]!;
      out[at + 2] = oneDown;
      out[at + 3] = up * (1 - even) - oneDown;
      out[at + 4] = free;
      shares(out, at, 5);
    },
    seenAs: signatureOf,
  },
  {
    check: "diode-check",
    outcomes: [
      outcome("all six in order", "devices-conduct-and-block"),
      outcome("one device open", "device-open"),
      outcome("one device shorted", "device-shorted"),
      outcome("one leg open", "leg-open"),
    ],
    chances: shows((h) => RECTIFIER_SHOWS[RECTIFIER_INDEX[h.rectifier]]!),
    seenAs: (h) => h.rectifier,
  },
  {
    check: "voltage-drops",
    outcomes: [
      outcome("both runs small", "bplus-drop-normal", "ground-drop-normal"),
      outcome("large in the B+ run", "bplus-drop-high"),
      outcome("large in the ground run", "ground-drop-high"),
    ],
    chances: (h, _f, x, out, at) => {
      const bplus = 1 - chanceBelow(h, "bplus-drop", x, Math.log(0.75));
      const ground = (1 - bplus) * (1 - chanceBelow(h, "ground-drop", x, Math.log(0.6)));
      out[at] = 1 - bplus - ground;
      out[at + 1] = bplus;
      out[at + 2] = ground;
      shares(out, at, 3);
    },
    seenAs: signatureOf,
  },
  {
    check: "phase-drops",
    outcomes: [outcome("all small"), outcome("volts across one connector", "connector-drop-high")],
    chances: shows((h) => CONNECTOR_SHOWS[h.connector]),
    seenAs: (h) => h.connector,
  },
  {
    check: "key-on-load",
    outcomes: [outcome("as expected", "key-on-normal"), outcome("far above what is expected", "key-on-high")],
    chances: bins("key-on-load", (f) => [f.load === undefined ? 0.85 : (1.3 * f.load) / f.voltScale / f.ratedAmps]),
    seenAs: signatureOf,
  },
];
