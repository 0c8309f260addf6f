import { choiceIn, numberIn } from "../readings/catalogue";
import { LOADED_IDS } from "../readings/entries";
import type { Job } from "../readings/types";
import type { Frame } from "./frame";
import { plateShare } from "./plate-output";
import { numberRow } from "./number-row";

/**
 * Readings of the battery and of the running machine, brought to one scale for all machines: volts
 * on the 12 V scale, amperes against the rated output, small positive quantities as logarithms. Each
 * feature comes from readings of one check, so leaving a check out leaves the others as they are.
 */
export const FEATURES = [
  "rest",
  "load-resistance",
  "recharged-rest",
  "cranking",
  "idle",
  "test",
  "battery-current",
  "key-on-load",
  "bplus-drop",
  "ground-drop",
  "drop-current",
  "ripple",
  "loaded-highest",
  "loaded-middle",
  "loaded-lowest",
] as const;
export type Feature = (typeof FEATURES)[number];

/**
 * What the machine's data says beforehand, on the same footing: it tells which readings to expect
 * and is no evidence itself.
 */
export const COVARIATES = ["output-at-idle", "nominal-load", "emf-at-test", "battery-size"] as const;

/** Not read: NaN. Nothing else of a feature is ever NaN. */
export type FeatureVector = Float64Array;

const floored = (value: number, least: number) => Math.log(Math.max(Math.abs(value), least));

/** Pairs that are alike differ by the meter's noise only: what counts is by how many times more. */
export const unevenness = (difference: number) => Math.log(difference + 0.01);

/** How far the battery sags while cranking [log V]; `volts` on the 12 V scale. */
export const crankingFeature = (volts: number, frame: Frame) => floored(frame.fullRest - volts, 0.3);

/** Regulated voltage of the machines that the signatures come from, and where regulation is out of reach [V]. */
const USUAL_LIMIT = [14.8, 15] as const;
const UNREGULATED = 13;

/** A machine that is regulated higher or lower than usual is looked at as if its limit were the usual one. */
export function toUsualBand(volts: number, { regulatedMax }: Frame): number {
  return volts <= UNREGULATED ? volts : UNREGULATED + (volts - UNREGULATED) * bandScale(regulatedMax);
}

/** The other way round: what the machine's own meter would show. */
export function fromUsualBand(volts: number, { regulatedMax }: Frame): number {
  return volts <= UNREGULATED ? volts : UNREGULATED + (volts - UNREGULATED) / bandScale(regulatedMax);
}

function bandScale(limit: number): number {
  const usual = Math.min(Math.max(limit, USUAL_LIMIT[0]), USUAL_LIMIT[1]);
  return (usual - UNREGULATED) / Math.max(limit - UNREGULATED, 0.5);
}

/** What a lost cell takes from a lithium battery and from a lead battery, and from where on only that or a flat one is meant [V]. */
const LITHIUM_CELL = 3.3;
const LEAD_CELL = 2.12;
const EMPTIED = 1.3;
const PER_VOLT = (LEAD_CELL - EMPTIED) / (LITHIUM_CELL - EMPTIED);

/** Volts of a lithium battery below what it rests at empty, counted `by` so much; of any other as they are. */
function bent(volts: number, { fullRest, batteryType }: Frame, by: number): number {
  const below = volts - fullRest + EMPTIED;
  return batteryType !== "lithium" || below > 0 ? volts : volts + below * (by - 1);
}

/** The volts that lead would show: a lithium cell that is lost as a lead cell that is. The signatures are those of lead. */
const asLead = (volts: number, frame: Frame) => bent(volts, frame, PER_VOLT);

/** The other way round: the volts of the battery that is there, both on the 12 V scale. */
export const asItIs = (volts: number, frame: Frame) => bent(volts, frame, 1 / PER_VOLT);

/** By so much must the battery stand above its rest to be charged, the lights on [V]. */
const RISE = 0.2;
/** A battery that was not read at rest: half charged. */
const USUAL_REST = 12.3;

/** Whether the running machine lifts the battery above its rested voltage at all. */
export function risesAtSpeed(job: Job, { voltScale }: Frame): boolean {
  const test = numberIn(job, "test-voltage");
  const rest = numberIn(job, "rested-voltage");
  if (test === undefined) return (numberIn(job, "battery-current") ?? 0) > 0;
  return test * voltScale > (rest === undefined ? USUAL_REST : rest * voltScale) + RISE;
}

/** A regulator that has let go may let the voltage rise to any height: beyond this it is no likelier for any cause [V]. */
const RUNAWAY = 16.2;

/** Whether less is asked of a battery that cranks; one of unknown temperature is not cold. */
export function isCold(job: Job): boolean {
  return (numberIn(job, "battery-temperature") ?? 20) < 0;
}

/** Below freezing a lithium battery sags until it has warmed up, though not below this [V]. */
const LEAST_COLD = 7;
const isColdSag = (job: Job, crank: number, { batteryType }: Frame) =>
  batteryType === "lithium" && isCold(job) && crank >= LEAST_COLD;

/** So many volts across a run mean that nothing flows, and so much of the rated current is nothing, by a clamp's zero. */
const OPEN = 8;
const NO_CURRENT = 0.03;
const OWN_VOLTS = 0.05;

/** Place of each feature among the features. */
const AT = Object.fromEntries(FEATURES.map((feature, i) => [feature, i])) as Readonly<Record<Feature, number>>;

export function runningFeatures(job: Job, frame: Frame): FeatureVector {
  const x = numberRow(FEATURES.length).fill(Number.NaN);
  batteryFeatures(x, job, frame);
  // The signatures are those of regulated machines: without a regulator only no rise at all says something.
  const charging = frame.unregulated && risesAtSpeed(job, frame);
  if (!frame.unregulated) x[AT.idle] = asUsual(voltsIn(job, "idle-voltage", frame), frame);
  if (!charging) {
    x[AT.test] = asUsual(Math.min(RUNAWAY, voltsIn(job, "test-voltage", frame)), frame);
    x[AT["battery-current"]] = Math.asinh(shareOfRated(job, "battery-current", frame) / 0.1);
    x[AT.ripple] = floored(voltsIn(job, "battery-ripple", frame), 0.004);
  }
  x[AT["key-on-load"]] = shareOfRated(job, "key-on-load", frame);
  dropFeatures(x, job, frame);
  if (LOADED_IDS.every((id) => numberIn(job, id) !== undefined)) loadedFeatures(x, job, frame);
  for (let i = 0; i < x.length; i++) if (!Number.isFinite(x[i]!)) x[i] = Number.NaN;
  return x;
}

function batteryFeatures(x: FeatureVector, job: Job, frame: Frame): void {
  const rest = voltsIn(job, "rested-voltage", frame);
  const loadRest = voltsIn(job, "load-test-rested", frame);
  const recharged = choiceIn(job, "load-test-recharged") === "yes";
  // Without a charge in between, the rest before the load test is the same rest.
  const atRest = Number.isNaN(rest) && !recharged ? loadRest : rest;
  x[AT.rest] = asLead(atRest, frame) - frame.fullRest;
  if (recharged) x[AT["recharged-rest"]] = asLead(loadRest, frame) - frame.fullRest;
  const amps = numberIn(job, "load-test-current") ?? 0;
  const before = Number.isNaN(loadRest) ? rest : loadRest;
  if (amps > 0)
    x[AT["load-resistance"]] = floored(((before - voltsIn(job, "load-test-voltage", frame)) / amps) * frame.cca, 0.5);
  const crank = voltsIn(job, "cranking-voltage", frame);
  if (!isColdSag(job, crank, frame)) x[AT.cranking] = crankingFeature(crank, frame);
}

function dropFeatures(x: FeatureVector, job: Job, frame: Frame): void {
  const bplus = voltsIn(job, "bplus-drop", frame);
  const ground = voltsIn(job, "ground-drop", frame);
  const current = shareOfRated(job, "drop-current", frame);
  const nothing = Number.isNaN(current) ? Math.abs(bplus) > OPEN : Math.abs(current) < NO_CURRENT;
  x[AT["bplus-drop"]] = floored(bplus, 0.005);
  // With nothing flowing a few hundredths of a volt, and of the rating, are the meter's own.
  x[AT["ground-drop"]] = floored(nothing && Math.abs(ground) < OWN_VOLTS ? 0 : ground, 0.005);
  x[AT["drop-current"]] = nothing && !Number.isNaN(current) ? 0 : current;
}

function loadedFeatures(x: FeatureVector, job: Job, frame: Frame): void {
  const [highest, middle, lowest] = LOADED_IDS.map((id) => floored(voltsIn(job, id, frame), 0.3)).sort((a, b) => b - a);
  x[AT["loaded-highest"]] = highest!;
  x[AT["loaded-middle"]] = unevenness(highest! - middle!);
  x[AT["loaded-lowest"]] = unevenness(highest! - lowest!);
}

/** Volts on the 12 V scale, and amperes as a share of the rated output; NaN where not read. */
function voltsIn(job: Job, id: string, { voltScale }: Frame): number {
  return (numberIn(job, id) ?? Number.NaN) * voltScale;
}

function shareOfRated(job: Job, id: string, { voltScale, ratedAmps }: Frame): number {
  return (numberIn(job, id) ?? Number.NaN) / voltScale / ratedAmps;
}

const asUsual = (volts: number, frame: Frame) => toUsualBand(asLead(volts, frame), frame);

/** Covariates in the order of `COVARIATES`; NaN where the machine's data is silent. */
export function covariates(frame: Frame): FeatureVector {
  const at = (value: number | undefined) => value ?? Number.NaN;
  const { load, emfPerKrpm, testRpm, capacity, ratedAmps, voltScale } = frame;
  const given = numberRow(COVARIATES.length);
  given[0] = at(plateShare(frame, frame.idleRpm));
  given[1] = load === undefined ? Number.NaN : load / voltScale / ratedAmps;
  given[2] =
    emfPerKrpm === undefined || testRpm === undefined
      ? Number.NaN
      : floored((emfPerKrpm * voltScale * testRpm) / 1000 / 14, 0.1);
  given[3] = capacity === undefined || !frame.ratedKnown ? Number.NaN : floored(capacity / voltScale / ratedAmps, 0.05);
  return given;
}
