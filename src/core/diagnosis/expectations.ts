import type { Frame } from "./frame";
import type { Hypothesis, Placed } from "./hypotheses";
import { hasOnePair } from "./machine-kind";
import { isRotorWeak } from "./rotor-evidence";
import { asItIs, COVARIATES, FEATURES, fromUsualBand, unevenness, type Feature } from "./running-features";
import { featureRange, type Situation } from "./signatures";

const RECTIFIER_WORDS: Readonly<Record<Hypothesis["rectifier"], string>> = {
  good: "all six devices conducting one way and blocking the other",
  "upper-open": "one upper device OL both ways",
  "lower-open": "one lower device OL both ways",
  "upper-shorted": "one upper device near 0 V both ways",
  "lower-shorted": "one lower device near 0 V both ways",
  "leg-open": "both devices of one phase OL both ways",
  "open-masked": "readings like a good unit (the control circuit hides the open device)",
};
const WINDING_WORDS: Readonly<Record<Hypothesis["winding"], string>> = {
  good: "three like resistances",
  "turns-few": "three nearly like resistances",
  "turns-some": "one winding a little low",
  "turns-many": "one winding low",
  "lead-open": "two pairs OL",
  "delta-winding-open": "one pair at twice the other two",
  joint: "two pairs high by the same amount",
};
const OUTPUT_WORDS: Readonly<Record<Hypothesis["output"], string>> = {
  good: "full and even AC",
  "weak-little": "AC somewhat low on all pairs alike",
  "weak-half": "AC at half to two thirds on all pairs alike",
  "weak-much": "AC below half on all pairs alike",
  "turns-few": "AC uneven by some percent",
  "turns-some": "uneven AC",
  "turns-many": "very uneven AC",
  "lead-open": "two dead pairs",
};

/** Of a machine with one pair, in the words of what that pair can show: there is no other to be like or unlike. */
function onePairWords(state: Placed["output"] | Placed["winding"], good: string, open: string): string {
  if (state === "good") return good;
  return state.endsWith("-open") ? open : state === "joint" ? "above what it should be" : "below what it should be";
}

/** Which feature stands for a check when words are needed, and how it reads. */
interface Spoken {
  readonly feature: Feature;
  readonly unit: string;
  readonly digits: number;
  readonly read: (x: number, frame: Frame) => number;
}
const volts = (feature: Feature, read: Spoken["read"] = (x, f) => x / f.voltScale): Spoken => ({
  feature,
  unit: "V",
  digits: 1,
  read,
});
const SPOKEN: Readonly<Partial<Record<string, Spoken>>> = {
  "battery-at-rest": volts("rest", (x, f) => asItIs(x + f.fullRest, f) / f.voltScale),
  cranking: volts("cranking", (x, f) => (f.fullRest - Math.exp(x)) / f.voltScale),
  "running-idle": volts("idle", (x, f) => asItIs(fromUsualBand(x, f), f) / f.voltScale),
  "running-test": volts("test", (x, f) => asItIs(fromUsualBand(x, f), f) / f.voltScale),
  "key-on-load": { feature: "key-on-load", unit: "A", digits: 0, read: (x, f) => x * f.ratedAmps * f.voltScale },
};

/** What a check would show under a hypothesis, in words; "" where it has nothing to say. */
export function expectationWords(h: Placed, checkId: string, frame: Frame, situation: Situation): string {
  switch (checkId) {
    case "diode-check":
      return RECTIFIER_WORDS[h.rectifier];
    case "winding-ohms":
      return hasOnePair(frame)
        ? onePairWords(h.winding, "as it should be", "an open winding or lead")
        : WINDING_WORDS[h.winding];
    case "no-load-ac":
      return hasOnePair(frame) ? onePairWords(h.output, "full", "none") : OUTPUT_WORDS[h.output];
    case "rotor":
      return isRotorWeak(h) ? "an open winding or lead" : "as it should be";
    case "winding-to-ground":
    case "insulation":
      return h.ground === "leak" ? "a path to ground" : "no path to ground";
    case "output-short":
    case "case-leakage":
      return h.unit === "leaks" ? "a leak" : "no leak";
    case "cell-gravities":
      return h.cells === "alike" ? "cells alike" : "one cell far below the others";
    case "key-off-draw":
      return h.draw === "high"
        ? `more than ${Math.round(frame.keyOffLimit)} mA`
        : `at most ${Math.round(frame.keyOffLimit)} mA`;
    case "phase-drops":
      return h.connector === "burnt" ? "a drop of volts at one connector" : "a few hundredths of a volt";
    case "load-test":
      return loadTestWords(h, situation);
    case "voltage-drops":
      return dropWords(h, frame, situation);
    case "loaded-ac":
      return loadedWords(h, situation);
    default:
      return spokenRange(h, checkId, frame, situation);
  }
}

function valueOf(feature: Feature, situation: Situation): number {
  return situation[COVARIATES.length + FEATURES.indexOf(feature)]!;
}

function isRead(feature: Feature, situation: Situation): boolean {
  return !Number.isNaN(valueOf(feature, situation));
}

/** Nine in ten jobs with the fault lie within this many spreads. */
const MOST = 1.65;
/** Features of each check of which a range is told. */
const RANGES: Readonly<Partial<Record<string, readonly Feature[]>>> = {
  ...Object.fromEntries(Object.entries(SPOKEN).map(([check, spoken]) => [check, [spoken!.feature]])),
  "voltage-drops": ["bplus-drop", "ground-drop"],
};

/** Whether a check's own reading lies outside the range that a hypothesis is said to show. */
export function isOutside(h: Placed, checkId: string, situation: Situation): boolean {
  return (RANGES[checkId] ?? []).some((feature) => {
    if (!isRead(feature, situation)) return false;
    const { centre, spread } = featureRange(h, feature, situation);
    return Math.abs(valueOf(feature, situation) - centre) > MOST * spread;
  });
}

function spokenRange(h: Placed, checkId: string, frame: Frame, situation: Situation): string {
  const spoken = SPOKEN[checkId];
  // Volts are not held beside amperes: without its own reading a range says nothing.
  if (!spoken || !isRead(spoken.feature, situation)) return "";
  const { centre, spread } = featureRange(h, spoken.feature, situation);
  const ends = [centre - MOST * spread, centre + MOST * spread]
    .map((x) => Math.max(0, spoken.read(x, frame)))
    .sort((a, b) => a - b);
  return `${ends[0]!.toFixed(spoken.digits)} to ${ends[1]!.toFixed(spoken.digits)} ${spoken.unit}`;
}

function loadTestWords(h: Placed, situation: Situation): string {
  if (h.cells === "one gone") return "about 2 V less than a sound battery";
  // At rest after charging alone, a battery that would collapse reads as a good one does.
  if (!isRead("load-resistance", situation)) return "";
  return Math.exp(featureRange(h, "load-resistance", situation).centre) > 9
    ? "a collapse under load"
    : "a battery that holds its voltage";
}

/** More than a run that conducts at all can drop [V]. */
const NOTHING_THROUGH = 8;

function dropWords(h: Placed, frame: Frame, situation: Situation): string {
  const run = (feature: "bplus-drop" | "ground-drop", name: string) => {
    if (!isRead(feature, situation)) return [];
    const { centre, spread } = featureRange(h, feature, situation);
    const open = feature === "bplus-drop" && h.fault.includes("main-fuse-blown");
    if (open || centre > Math.log(NOTHING_THROUGH)) return [`the full voltage in the ${name}`];
    const volt = (x: number) => (Math.exp(x) / frame.voltScale).toFixed(2);
    return [`${volt(centre - MOST * spread)} to ${volt(centre + MOST * spread)} V in the ${name}`];
  };
  return [...run("bplus-drop", "B+ run"), ...run("ground-drop", "ground run")].join(", ");
}

function loadedWords(h: Placed, situation: Situation): string {
  const highest = Math.exp(featureRange(h, "loaded-highest", situation).centre);
  const lowest = featureRange(h, "loaded-lowest", situation).centre;
  const near = highest < 20 ? highest.toFixed(0) : (Math.round(highest / 5) * 5).toFixed(0);
  return lowest < unevenness(0.15) ? `three pairs alike near ${near} V` : `uneven pairs, the highest near ${near} V`;
}
