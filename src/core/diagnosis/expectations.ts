import type { FaultKey } from "./faults";
import type { Frame } from "./frame";
import { HYPOTHESES, type Hypothesis, type Placed } from "./hypotheses";
import { featureRange } from "./signatures";
import { CHECK_OF_FEATURE, FEATURES, type Feature } from "./running-features";

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

/** Which feature stands for a check when words are needed, and how it reads. */
const SPOKEN: Readonly<Partial<Record<string, { readonly feature: Feature; readonly unit: string; readonly toUnit: (x: number, frame: Frame) => number; readonly digits: number }>>> = {
  "battery-at-rest": { feature: "rest", unit: "V", toUnit: (x, f) => (x + f.fullRest) / f.voltScale, digits: 1 },
  cranking: { feature: "cranking", unit: "V", toUnit: (x, f) => x / f.voltScale, digits: 1 },
  "running-idle": { feature: "idle", unit: "V", toUnit: (x, f) => x / f.voltScale, digits: 1 },
  "running-test": { feature: "test", unit: "V", toUnit: (x, f) => x / f.voltScale, digits: 1 },
  "key-on-load": { feature: "key-on-load", unit: "A", toUnit: (x, f) => Math.exp(x) * f.ratedAmps * f.voltScale, digits: 0 },
};

/** What a check would show if this fault were there, in words; "" where it has nothing to say. */
export function expectationWords(fault: FaultKey, checkId: string, frame: Frame): string {
  const ways = HYPOTHESES.filter((h) => h.fault === fault);
  const main = ways.reduce((a, b) => (b.share > a.share ? b : a));
  switch (checkId) {
    case "diode-check":
      return RECTIFIER_WORDS[main.rectifier];
    case "winding-ohms":
      return WINDING_WORDS[main.winding];
    case "no-load-ac":
      return OUTPUT_WORDS[main.output];
    case "winding-to-ground":
    case "insulation":
      return main.ground === "leak" ? "a path to ground" : "no path to ground";
    case "key-off-draw":
      return main.draw === "high" ? `more than ${Math.round(frame.keyOffLimit)} mA` : `at most ${Math.round(frame.keyOffLimit)} mA`;
    case "phase-drops":
      return main.connector === "burnt" ? "a drop of volts at one connector" : "a few hundredths of a volt";
    case "load-test":
      return loadTestWords(main);
    case "voltage-drops":
      return dropWords(main, frame);
    case "loaded-ac":
      return loadedWords(main);
    default:
      return spokenRange(main, checkId, frame);
  }
}

function spokenRange(main: Placed, checkId: string, frame: Frame): string {
  const spoken = SPOKEN[checkId];
  if (!spoken) return "";
  const { centre, spread } = featureRange(main, spoken.feature);
  const low = spoken.toUnit(centre - 1.3 * spread, frame);
  const high = spoken.toUnit(centre + 1.3 * spread, frame);
  return `${low.toFixed(spoken.digits)} to ${high.toFixed(spoken.digits)} ${spoken.unit}`;
}

function loadTestWords(main: Placed): string {
  const { centre } = featureRange(main, "load-resistance");
  return Math.exp(centre) > 9 ? "a collapse under load" : main.fault === "battery-shorted-cell" ? "about 2 V less than a sound battery" : "a sound battery holding its voltage";
}

function dropWords(main: Placed, frame: Frame): string {
  const part = (feature: "bplus-drop" | "ground-drop") => {
    const { centre, spread } = featureRange(main, feature);
    return `${(Math.exp(centre - spread) / frame.voltScale).toFixed(2)} to ${(Math.exp(centre + spread) / frame.voltScale).toFixed(2)} V`;
  };
  return `${part("bplus-drop")} in the B+ run, ${part("ground-drop")} in the ground run`;
}

function loadedWords(main: Placed): string {
  const even = Math.exp(featureRange(main, "loaded-lowest").centre);
  const high = Math.exp(featureRange(main, "loaded-highest").centre);
  const evenness = even > 0.85 ? "three pairs alike" : `the lowest pair at about ${Math.round(even * 100)} % of the highest`;
  return `${evenness}, the highest near ${high < 20 ? high.toFixed(0) : (Math.round(high / 5) * 5).toFixed(0)} V`;
}

/** Features that a check yields, for those who need them one by one. */
export function featuresOfCheck(checkId: string): readonly Feature[] {
  return FEATURES.filter((f) => CHECK_OF_FEATURE[f] === checkId);
}
