import { FITTED_SIGNATURES } from "./fitted-signatures";
import { DOUBLES, HYPOTHESES, SINGLES, type Placed } from "./hypotheses";
import { MaskedMixtures } from "./masked-mixtures";
import { momentsOf, type Component, type Mixture } from "./mixture";
import { COVARIATES, FEATURES, type Feature, type FeatureVector } from "./running-features";
import { unpack } from "./signature-codec";
import { numberRow } from "./number-row";

/**
 * What each hypothesis foretells of battery and running readings. Single faults are fitted to the
 * circuit; of two at once the second fault's signature carries the marks of the first.
 */
const KINDS = ["shunt", "series"] as const;
/** Tails: six degrees of freedom leave one odd reading with little to say. */
const DEGREES = 7;
/** Share of jobs that are odd in a way that no fault foretells. */
const ODD_JOBS = 0.01;
const ODD_WIDTH = 3;
/**
 * Readings of one running machine lean on each other in more ways than the mixtures hold. With this
 * weight on them the chances came out true on simulated jobs of other machines than were fitted to.
 */
const WEIGHT = 0.78;

const FITTED = new Map(unpack(FITTED_SIGNATURES).map((m) => [m.name, m]));
const n = COVARIATES.length + FEATURES.length;

function fitted(running: string, kind: string): Mixture | undefined {
  return FITTED.get(`${running}|${kind}`);
}

/** Where the marks of a fault are read off: a machine in order with a battery that was run down. */
const UNMARKED = "parasitic-drain";
const BATTERY_FEATURES: readonly Feature[] = [
  "load-resistance",
  "recharged-rest",
  "cranking",
  "ripple",
  "battery-current",
];

type Whole = Omit<Component, "weight">;
const WHOLE = new Map<Mixture, Whole>();

/** Mean and covariance of a fitted mixture: each is asked for by several pairs. */
function wholeOf(mixture: Mixture): Whole {
  let whole = WHOLE.get(mixture);
  if (!whole) WHOLE.set(mixture, (whole = momentsOf(mixture.components)));
  return whole;
}

/** The second fault's signature, moved by what the first does to a machine in order, and wider by it. */
function marked(first: string, second: Mixture, kind: string): Component {
  const under = wholeOf(second);
  const with_ = wholeOf(fitted(first, kind)!);
  const without = wholeOf(fitted(UNMARKED, kind)!);
  const mean = under.mean.map((v, i) => (i < COVARIATES.length ? v : v + with_.mean[i]! - without.mean[i]!));
  const covariance = Float64Array.from(under.covariance);
  FEATURES.forEach((feature, f) => {
    const i = COVARIATES.length + f;
    const diagonal = (i * (i + 3)) / 2;
    const grown = Math.max(0, with_.covariance[diagonal]! - without.covariance[diagonal]!);
    covariance[diagonal] = covariance[diagonal]! + (BATTERY_FEATURES.includes(feature) ? grown : 0.3 * grown);
  });
  return { weight: 1, mean, covariance };
}

function build(): readonly Mixture[] {
  const out: Mixture[] = [];
  for (const kind of KINDS) {
    const seen = new Set<string>();
    for (const h of [...SINGLES, ...DOUBLES]) {
      if ((h.regulator !== undefined && h.regulator !== kind) || seen.has(h.running)) continue;
      seen.add(h.running);
      const name = `${h.running}|${kind}`;
      const plus = h.running.indexOf("+");
      if (plus < 0) {
        const mixture = fitted(h.running, kind);
        if (!mixture) throw new Error(`No signature "${name}".`);
        out.push(mixture);
      } else {
        const first = h.running.slice(0, plus);
        const second = fitted(h.running.slice(plus + 1), kind);
        if (!second) throw new Error(`No signature "${name}".`);
        out.push({ name, components: [marked(first, second, kind)] });
      }
    }
  }
  return out;
}

const MIXTURES = build();
const INDEX = new Map(MIXTURES.map((m, i) => [m.name, i]));
const TABLE = new MaskedMixtures([...MIXTURES, background()], COVARIATES.length, DEGREES);

/** What a job looks like of which nothing is known: all signatures together, and wider. */
function background(): Mixture {
  const singles = [...FITTED.values()];
  const { mean, covariance } = momentsOf(singles.map((m) => ({ ...wholeOf(m), weight: 1 })));
  for (let i = COVARIATES.length, k; i < n; i++) {
    k = (i * (i + 3)) / 2;
    covariance[k] = covariance[k]! * ODD_WIDTH;
  }
  return { name: "odd", components: [{ weight: 1, mean, covariance }] };
}

/** How many signatures there are. */
export const SIGNATURE_COUNT = MIXTURES.length;
/** Index of the signature of each hypothesis, in the order of `HYPOTHESES`. */
export const SIGNATURE_OF_HYPOTHESIS = Int32Array.from(HYPOTHESES, signatureOf);

function signatureOf(h: Placed): number {
  return INDEX.get(`${h.running}|${h.kind}`)!;
}

/** Coordinate of a feature: where it stands in a situation. */
export function coordinateOf(feature: Feature): number {
  return COVARIATES.length + FEATURES.indexOf(feature);
}

/** Covariates and features of a job side by side: what the signatures look at. */
export type Situation = Float64Array;

export function situationOf(given: FeatureVector, features: FeatureVector): Situation {
  const x = numberRow(n);
  x.set(given);
  x.set(features, given.length);
  return x;
}

/**
 * Log likelihood of the running readings under each signature, the machine's data given.
 *
 * @param x - Covariates and features, NaN where the plate is silent or nothing was read
 */
export function runningLogs(x: Situation): Float64Array {
  const logs = TABLE.logDensitiesBeside(x, ODD_JOBS);
  for (let i = 0; i < logs.length; i++) logs[i] = WEIGHT * logs[i]!;
  return logs;
}

/** Middle and spread of one feature under a hypothesis, given all else that is known, on the feature's own scale. */
export function featureRange(
  h: Placed,
  feature: Feature,
  x: Situation,
): { readonly centre: number; readonly spread: number } {
  return TABLE.foretell(signatureOf(h), x, coordinateOf(feature));
}

/**
 * Chances that a feature lies below a value under some signatures, given all else that is known.
 *
 * @param into - Gets them: that of signature s at `s * step + column`
 */
export function chancesBelow(
  signatures: Int32Array,
  coordinate: number,
  x: Situation,
  value: number,
  into: Float64Array,
  step: number,
  column: number,
): void {
  TABLE.chancesBelow(signatures, x, coordinate, value, into, step, column);
}
