import { COLDEST_LOAD_TEST, loadLimit } from "../battery/load-limit";
import { choiceIn, numberIn } from "../readings/catalogue";
import { PAIRS, PHASES } from "../readings/entries";
import type { Job } from "../readings/types";
import { diodeCheckTaken, judgeRectifier } from "../rectifier/job";
import type { Frame } from "./frame";
import { noLoadReadings } from "./no-load-evidence";
import { ohmReadings, ohmReadingSpread } from "./winding-evidence";

/** What a check shows for itself, before any weighing: the stuff that a part may be condemned on. */
export type Finding =
  | "device-shorted"
  | "device-open"
  | "leg-open"
  | "devices-conduct-and-block"
  | "unit-leaks"
  | "over-voltage"
  | "voltage-in-band"
  | "no-output-at-speed"
  | "loaded-phase-held-down"
  | "loaded-all-held-down"
  | "loaded-as-unplugged"
  | "loaded-not-held"
  | "loaded-even"
  | "nothing-leaves-regulator"
  | "charges"
  | "ripple-small"
  | "no-load-alive"
  | "cranking-collapses"
  | "no-load-full"
  | "no-load-low"
  | "no-load-uneven"
  | "no-load-dead-pair"
  | "winding-even"
  | "winding-open"
  | "winding-low-pair"
  | "winding-high-lead"
  | "winding-to-ground"
  | "winding-clear-of-ground"
  | "load-test-fails"
  | "load-test-passes"
  | "cell-missing"
  | "rest-sound"
  | "draw-high"
  | "draw-normal"
  | "bplus-drop-high"
  | "bplus-drop-normal"
  | "ground-drop-high"
  | "ground-drop-normal"
  | "connector-drop-high"
  | "key-on-high"
  | "key-on-normal";

export type Findings = ReadonlySet<Finding>;

export function findingsOf(job: Job, frame: Frame, knownGood: readonly Job[] = []): Findings {
  const found = new Set<Finding>();
  rectifierFindings(job, knownGood, found);
  runningFindings(job, frame, found);
  noLoadFindings(job, frame, found);
  windingFindings(job, frame, found);
  groundFindings(job, found);
  batteryFindings(job, frame, found);
  wiringFindings(job, frame, found);
  return found;
}

function rectifierFindings(job: Job, knownGood: readonly Job[], found: Set<Finding>): void {
  const checked = diodeCheckTaken(job);
  if (!checked && !OTHER_UNIT_READINGS.some((id) => job.has(id))) return;
  const { diodes, outputShort, caseLeakage } = judgeRectifier(job, { knownGood });
  if (outputShort.state === "faulty" || caseLeakage.state === "faulty") found.add("unit-leaks");
  if (!checked) return;
  for (const finding of diodes.findings) {
    if (finding.weight !== "faulty") continue;
    if (finding.state === "open") found.add(finding.bank === undefined ? "leg-open" : "device-open");
    else found.add("device-shorted");
  }
  if (diodes.state === "serviceable") found.add("devices-conduct-and-block");
}

const OTHER_UNIT_READINGS = ["output-to-ground", "output-to-ground-swapped", "case-leakage"];

function runningFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const s = frame.voltScale;
  const test = numberIn(job, "test-voltage");
  if (test !== undefined) {
    const v = test * s;
    // A meter of ±(0.5 % + 2 counts) at 15 V: 0.1 V, and a cold machine may sit 0.1 V higher.
    if (v > frame.regulatedMax + 0.12) found.add("over-voltage");
    else if (v >= frame.regulatedMin - 0.1) found.add("voltage-in-band");
    else if (v < frame.regulatedMin - 0.25) found.add("no-output-at-speed");
  }
  const output = numberIn(job, "drop-current");
  const bplus = numberIn(job, "bplus-drop");
  const little = Math.max(0.6, 0.03 * frame.ratedAmps);
  // Without current there is no drop: a run that shows none carries nothing.
  const charge = numberIn(job, "battery-current");
  const load = numberIn(job, "key-on-load") ?? frame.load;
  const batteryCarriesAll = charge !== undefined && load !== undefined && load > 2 && charge < -0.8 * load;
  const silent =
    output === undefined ? batteryCarriesAll || (bplus !== undefined && Math.abs(bplus) < 0.012) : output <= little;
  if (silent) found.add("nothing-leaves-regulator");
  if (charge !== undefined && charge / s > 0.02 * frame.ratedAmps) found.add("charges");
  // Where the voltage was not read, a battery that discharges at speed says the same.
  if (test === undefined && charge !== undefined && charge / s < -0.02 * frame.ratedAmps - 0.3)
    found.add("no-output-at-speed");
  const ripple = numberIn(job, "battery-ripple");
  if (ripple !== undefined && ripple * s < 0.06) found.add("ripple-small");
  const loaded = PAIRS.map((p) => numberIn(job, `loaded-${p}`));
  if (loaded.every((v): v is number => v !== undefined)) {
    const sorted = [...loaded].map((v) => v * s).sort((a, b) => b - a);
    const [high, middle, low] = sorted as [number, number, number];
    if (high < 6) found.add("loaded-all-held-down");
    // One phase tied to one side: the other pair carries a full bridge's voltage, two pairs less.
    else if (high < 16 && middle / high < 0.86 && low / high > 0.6) found.add("loaded-phase-held-down");
    else if (low / high > 0.9) found.add("loaded-even");
    const unplugged = expectedNoLoad(job, frame);
    if (unplugged !== undefined && low > 0.75 * unplugged && low / high > 0.95) found.add("loaded-as-unplugged");
    // A bridge that conducts holds the AC at 0.82 of battery voltage and two devices: 13 V.
    if (low > 20 && low / high > 0.9) found.add("loaded-not-held");
  }
}

/** Lowest no-load pair carried over to the test speed [V]. */
function expectedAtTest(values: readonly number[], rpm: number | undefined, frame: Frame): number | undefined {
  if (rpm === undefined || rpm <= 0) return undefined;
  return (Math.min(...values) * frame.voltScale * (frame.testRpm ?? rpm)) / rpm;
}

/** Line-to-line AC that the unplugged stator gives at the test speed, read or from the plate [V]. */
export function expectedNoLoad(job: Job, frame: Frame): number | undefined {
  const testRpm = frame.testRpm;
  if (testRpm === undefined) return undefined;
  const read = noLoadReadings(job);
  const values = read?.pairs.filter((v): v is number => v !== undefined) ?? [];
  if (read?.rpm !== undefined && read.rpm > 0 && values.length > 0)
    return (values.reduce((a, b) => a + b, 0) / values.length / read.rpm) * testRpm * frame.voltScale;
  return frame.emfPerKrpm === undefined ? undefined : (frame.emfPerKrpm * testRpm * frame.voltScale) / 1000;
}

function noLoadFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const read = noLoadReadings(job);
  const values = read?.pairs.filter((v): v is number => v !== undefined) ?? [];
  if (!read || values.length === 0) return;
  const high = Math.max(...values);
  const low = Math.min(...values);
  const meanVolts = values.reduce((a, b) => a + b, 0) / values.length;
  const tolerance = (numberIn(job, "no-load-tolerance") ?? 20) / 100;
  const expected =
    frame.emfPerKrpm === undefined || read.rpm === undefined ? undefined : (frame.emfPerKrpm * read.rpm) / 1000;
  if (high > 3 && low < 0.05 * high) found.add("no-load-dead-pair");
  else if (values.length === 3 && high - low > Math.max(0.04 * meanVolts, 1)) found.add("no-load-uneven");
  const atTest = expectedAtTest(values, read.rpm, frame);
  // Peak of the lowest pair at twice the battery's voltage: any bridge would charge from it.
  if (values.length === 3 && low > 0.9 * high && atTest !== undefined && atTest * Math.SQRT2 > 28)
    found.add("no-load-alive");
  if (expected === undefined || values.length < 3) return;
  // 3 % for the speed and 1 % for the meter on top of the maker's own tolerance.
  if (high < expected * (1 - tolerance - 0.04)) found.add("no-load-low");
  else if (low > expected * (1 - tolerance) && high - low <= Math.max(0.04 * meanVolts, 1)) found.add("no-load-full");
}

function windingFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const read = ohmReadings(job);
  if (!read) return;
  const over = read.pairs.filter((p) => p === "over").length;
  const values = read.pairs.filter((p): p is number => typeof p === "number").map((p) => p - read.leads);
  if (over > 0) found.add("winding-open");
  if (over > 0 || values.length < 3) return;
  const [low, middle, high] = [...values].sort((a, b) => a - b) as [number, number, number];
  const noise = 2.5 * Math.SQRT2 * ohmReadingSpread(read.step) + 0.02 * Math.max(middle, 0);
  const size = Math.max(frame.lineOhms ?? middle, read.step);
  if (high > 1.6 * middle && high - middle > noise && Math.abs(middle - low) <= noise + 0.1 * middle)
    found.add("winding-open");
  else if (middle - low > noise && high - middle <= noise && middle - low > 0.15 * size) {
    const apart = onePairApart(low, middle, frame);
    if (apart) found.add(apart);
  } else if (high - middle > noise && high - middle > 0.04 * size && low < 1.1 * size + noise)
    found.add("winding-low-pair");
  else if (
    high - low <= noise &&
    (frame.lineOhms === undefined || (low > 0.75 * frame.lineOhms - noise && high < 1.5 * frame.lineOhms + noise))
  )
    found.add("winding-even");
}

/**
 * Two pairs alike and the third lower: a lead that adds to both of its pairs, or, in delta alone, a
 * winding short of turns. Only the figure of the sound winding tells which; without it neither is shown.
 */
function onePairApart(
  low: number,
  alike: number,
  { lineOhms, connection }: Frame,
): "winding-high-lead" | "winding-low-pair" | undefined {
  if (connection === "wye") return "winding-high-lead";
  if (lineOhms === undefined) return undefined;
  if (alike > 1.35 * lineOhms) return "winding-high-lead";
  return low < 0.85 * lineOhms && alike < 1.2 * lineOhms ? "winding-low-pair" : undefined;
}

function groundFindings(job: Job, found: Set<Finding>): void {
  const leads = numberIn(job, "meter-leads") ?? 0.1;
  let lowest: number | undefined;
  for (const phase of PHASES) {
    const m = job.get(`ground-${phase}`);
    if (m === undefined || m.kind === "text" || m.kind === "choice") continue;
    const ohms = m.kind === "overload" ? Infinity : m.value;
    if (ohms >= leads / 2) lowest = Math.min(lowest ?? Infinity, ohms);
  }
  const insulation = job.get("insulation");
  const megohms =
    insulation === undefined || insulation.kind === "text" || insulation.kind === "choice"
      ? undefined
      : insulation.kind === "overload"
        ? Infinity
        : insulation.value;
  if ((lowest !== undefined && lowest < 1e5) || (megohms !== undefined && megohms < 1)) found.add("winding-to-ground");
  else if (
    (lowest === undefined || lowest >= 1e6) &&
    (megohms === undefined || megohms >= 5) &&
    (lowest !== undefined || megohms !== undefined)
  )
    found.add("winding-clear-of-ground");
}

function batteryFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const s = frame.voltScale;
  const rest = numberIn(job, "rested-voltage");
  const before = numberIn(job, "load-test-rested");
  const recharged = choiceIn(job, "load-test-recharged") === "yes";
  // Without a charge in between, the rest before the load test is the same rest.
  const charged = recharged ? before : (rest ?? before);
  const missing = (v: number) => {
    const short = frame.fullRest - v * s;
    // A lithium battery is flat from 1.3 V below full and cut off; a cell of it is 3.3 V.
    return frame.batteryType === "lithium"
      ? short > 2.5 && short < 4.6
      : short > (recharged ? 1.3 : 1.75) && short < 3.2;
  };
  if (charged !== undefined && missing(charged)) found.add("cell-missing");
  const gravities = [1, 2, 3, 4, 5, 6]
    .map((c) => numberIn(job, `gravity-${c}`))
    .filter((g): g is number => g !== undefined);
  if (gravities.length >= 3 && Math.max(...gravities) - Math.min(...gravities) > 0.1) found.add("cell-missing");
  const soundAt = frame.fullRest - 0.25;
  if (
    ((rest !== undefined && rest * s >= soundAt) || (recharged && before !== undefined && before * s >= soundAt)) &&
    !found.has("cell-missing")
  )
    found.add("rest-sound");
  const crank = numberIn(job, "cranking-voltage");
  const cold = (numberIn(job, "battery-temperature") ?? 20) < 0;
  const notEmpty = rest !== undefined && rest * s > frame.fullRest - 0.65;
  if (crank !== undefined && notEmpty && crank * s < (cold ? 7 : 8)) found.add("cranking-collapses");
  const end = numberIn(job, "load-test-voltage");
  const amps = numberIn(job, "load-test-current");
  const start = before ?? rest;
  if (end === undefined || amps === undefined || amps <= 0 || start === undefined) return;
  const limit = loadLimit(Math.min(60, Math.max(COLDEST_LOAD_TEST, numberIn(job, "battery-temperature") ?? 21)));
  const least = limit.ok ? limit.value : 9.6;
  const halfCca = amps / (frame.cca / 2);
  const fair = halfCca > 0.75 && halfCca < 1.35;
  const charge75 = start * s >= frame.fullRest - 0.22;
  const ohmsTimesCca = (((start - end) * s) / amps) * frame.cca;
  if (fair && charge75 && end * s < least - 0.1) found.add("load-test-fails");
  // The rating itself leaves 5.4 V at full CCA in the cold: nine is far beyond what low charge explains.
  else if (ohmsTimesCca > 9) found.add("load-test-fails");
  else if (fair && charge75 && end * s >= least) found.add("load-test-passes");
}

function wiringFindings(job: Job, frame: Frame, found: Set<Finding>): void {
  const s = frame.voltScale;
  const current = numberIn(job, "drop-current");
  const judge = (id: "bplus-drop" | "ground-drop", limit: number) => {
    const drop = numberIn(job, id);
    if (drop === undefined) return;
    const volts = Math.abs(drop) * s;
    // A run is judged at its current: 60 mΩ is several times what a sound run of this size has.
    const ohms = current !== undefined && current > 2 ? volts / current : undefined;
    if (volts > limit + 0.35 || (ohms !== undefined && ohms > 0.05 && volts > limit)) found.add(`${id}-high`);
    else if (volts <= limit && (current === undefined || current > 2)) found.add(`${id}-normal`);
  };
  judge("bplus-drop", 0.4);
  judge("ground-drop", 0.25);
  if (PHASES.some((p) => (numberIn(job, `phase-drop-${p}`) ?? 0) * s > 0.8)) found.add("connector-drop-high");
  const draw = numberIn(job, "key-off-draw");
  if (draw !== undefined) {
    if (draw > frame.keyOffLimit * (frame.keyOffLimitKnown ? 1.1 : 2.5)) found.add("draw-high");
    else if (draw <= frame.keyOffLimit) found.add("draw-normal");
  }
  const keyOn = numberIn(job, "key-on-load");
  if (keyOn !== undefined && frame.load !== undefined) {
    if (keyOn > 1.3 * frame.load + 1) found.add("key-on-high");
    else if (keyOn < 1.15 * frame.load + 0.5) found.add("key-on-normal");
  } else if (keyOn !== undefined && frame.ratedKnown) {
    if (keyOn / s > 0.95 * frame.ratedAmps) found.add("key-on-high");
    else if (keyOn / s < 0.7 * frame.ratedAmps) found.add("key-on-normal");
  }
}
