import { polarization } from "./battery-law";
import { bridgeDevices, DEVICES } from "./bridge-devices";
import { bridgeSolver } from "./bridge-solver";
import { pieceTable } from "./device-pieces";
import { diodeAt } from "./diode-law";
import { COARSE, FINE, GAMMA, PARTS, STEPS } from "./emf-table";
import { reduce } from "./linear-reduction";
import { createStage } from "./stage";
import { statorNetwork, windingPeakVolts } from "./stator-network";
import { stretchSums, type Means } from "./stretch-means";
import { switchingRegulator } from "./switching-regulator";
import type { ChargingSystem, Conditions } from "./types";

/** An engine runs up slowly, so the start's own inrush must not trip the regulator: it is over after these periods. */
export const START_PERIODS = 6;
const SECOND_BASE = (1 - GAMMA) / GAMMA;

/**
 * The circuit in time: currents of the coils, latches of the controlled devices and the sensing
 * filter live on between calls. The polarization is slow beside all that and stays where the caller puts it.
 */
export interface Stepper {
  readonly hertz: number;
  /** Current that the battery's polarization has followed up to now [A]; slow beside the ripple, so the caller moves it. */
  slowAmps: number;
  /** How often the regulator has switched in the last `run` or `measure`. */
  toggles(): number;
  /** Back to the engine's start: no current, filter at rest; the polarization stays. */
  reset(): void;
  /** Advances by one period; its mean battery current [A], `NaN` where a step has no solution. */
  run(): number;
  /** Advances and collects means; `samples` receives the post voltage at each step. */
  measure(periods: number, samples?: Float64Array): Means | null;
  /** Currents of the coils, for periodicity checks. */
  readonly coilAmps: Float64Array;
  /** A copy of what the next period starts from. */
  periodStart(): PeriodStart;
}

/** What a period starts from: where two periods start from the same, everything between them repeats. */
export interface PeriodStart {
  /** Currents of the coils [A], voltage behind the sensing filter [V]. */
  readonly coilAmps: Float64Array;
  readonly filtered: number;
  /** Comparator and latches of the devices that follow it. */
  readonly over: boolean;
  readonly latches: Uint8Array;
}

export function createStepper(system: ChargingSystem, at: Conditions): Stepper {
  const { alternator, bridge, regulator, harness, battery } = system;
  const hertz = (at.rpm / 60) * alternator.polePairs;
  const step = 1 / hertz / STEPS;
  const network = statorNetwork(system, at);
  const peak = windingPeakVolts(alternator, at.rpm);
  const { harmonic5, harmonic7 } = alternator;
  const filterSeconds = Math.max(regulator.filterSeconds, 1e-7);
  const resolution = (parts: number) => ({
    ...reduce(network, (GAMMA * step) / parts),
    first: (parts > 1 ? FINE : COARSE)[0],
    fifth: (parts > 1 ? FINE : COARSE)[1],
    seventh: (parts > 1 ? FINE : COARSE)[2],
    share: 1 / parts,
    filterGain: (GAMMA * step) / parts / filterSeconds,
  });
  const coarse = resolution(1);
  const fine = resolution(PARTS);
  type Resolution = typeof coarse;
  const n = coarse.coils;
  const leaks = coarse.leakSiemens > 0;
  const coilWinding = Int32Array.from(network.coils, (c) => c.winding);
  const coilPeak = Float64Array.from(network.coils, (c) => c.share * peak);

  const loadSiemens = at.loadAmps / 13.5;
  const postShare = 1 / (1 + battery.ohms * loadSiemens);
  const postOhms = battery.ohms * postShare;
  const minusOhms = harness.groundOhms;
  const dcOhms = harness.bplusOhms + postOhms + minusOhms;
  const atPosts = regulator.senses === "battery";

  const table = pieceTable(diodeAt(bridge.diode, at.regulatorCelsius), bridge.shortOhms);
  const { conducts } = table;
  const devices = bridgeDevices(system, table);
  const piece = Int32Array.from(devices.pieces);
  const savedPiece = new Int32Array(DEVICES);
  const solve = bridgeSolver(table, piece, dcOhms, minusOhms);
  const regulates = regulator.kind === "series" || regulator.kind === "shunt";
  const comparator = switchingRegulator(system, at, table, devices, piece);

  const current = new Float64Array(n);
  const base = new Float64Array(n);
  const stage = createStage(n);
  const { inflow, volts, emf, history, amps } = stage;
  const sums = stretchSums(Float64Array.from(network.coils, (c) => c.ohms));
  let measuring = false;
  /** Periods for which the comparator does not look yet. */
  let blind = 0;

  const self: Stepper = {
    hertz,
    slowAmps: 0,
    toggles: () => (devices.followers.length > 0 ? comparator.toggles : 0),
    reset,
    run,
    measure,
    coilAmps: current,
    periodStart: () => ({
      coilAmps: Float64Array.from(current),
      filtered: comparator.filtered,
      over: comparator.over,
      latches: Uint8Array.from(comparator.latches),
    }),
  };
  reset();
  return self;

  function reset(): void {
    current.fill(0);
    volts.fill(0);
    stage.plus = battery.ocvVolts;
    stage.frame = 0;
    stage.leak = 0;
    piece.set(devices.pieces);
    comparator.reset(battery.ocvVolts);
    blind = START_PERIODS;
    comparator.looks = false;
  }

  /** One stage from `base`; leaves the coil currents in the stage. */
  function stageAt(r: Resolution, row: number): boolean {
    const { q, s, inductance } = r;
    const { first, fifth, seventh } = r;
    const frame = stage.frame;
    let j0 = r.leakJ[0]! * frame;
    let j1 = r.leakJ[1]! * frame;
    let j2 = r.leakJ[2]! * frame;
    for (let k = 0; k < n; k++) {
      const at = row + coilWinding[k]!;
      const e = coilPeak[k]! * (first[at]! + harmonic5 * fifth[at]! + harmonic7 * seventh[at]!);
      emf[k] = e;
      let sum = e;
      for (let c = 0; c < n; c++) sum += inductance[k * n + c]! * base[c]!;
      history[k] = sum;
      j0 -= s[k * 3]! * sum;
      j1 -= s[k * 3 + 1]! * sum;
      j2 -= s[k * 3 + 2]! * sum;
    }
    inflow[0] = j0;
    inflow[1] = j1;
    inflow[2] = j2;
    if (!solve(r.y, stage)) return false;
    const v0 = volts[0]!;
    const v1 = volts[1]!;
    const v2 = volts[2]!;
    for (let k = 0; k < n; k++) {
      let sum = s[k * 3]! * v0 + s[k * 3 + 1]! * v1 + s[k * 3 + 2]! * v2 + r.leakI[k]! * frame;
      for (let c = 0; c < n; c++) sum += q[k * n + c]! * history[c]!;
      amps[k] = sum;
    }
    if (leaks) {
      let tap = r.leakT[0]! * v0 + r.leakT[1]! * v1 + r.leakT[2]! * v2 + r.leakSelf * frame;
      for (let k = 0; k < n; k++) tap += r.leakH[k]! * history[k]!;
      const leak = r.leakSiemens * (tap - frame);
      stage.leak = leak;
      stage.frame = minusOhms * (stage.output + leak);
    }
    return true;
  }

  /** What the regulator senses [V]. */
  function sensed(): number {
    return atPosts ? stage.source + postOhms * stage.output : stage.plus;
  }

  /** One time step at a resolution; false where no solution was found. */
  function stepAt(r: Resolution, k: number): boolean {
    for (let c = 0; c < n; c++) base[c] = current[c]!;
    if (!stageAt(r, k * 6)) return false;
    sums.add(stage, r, r.share * (1 - GAMMA), measuring);
    const gain = r.filterGain;
    const filtered = comparator.filtered;
    const first = (filtered + gain * sensed()) / (1 + gain);
    for (let c = 0; c < n; c++) base[c] = current[c]! + SECOND_BASE * (amps[c]! - current[c]!);
    if (!stageAt(r, k * 6 + 3)) return false;
    sums.add(stage, r, r.share * GAMMA, measuring);
    const second = filtered + SECOND_BASE * (first - filtered);
    comparator.filtered = (second + gain * sensed()) / (1 + gain);
    if (comparator.over) sums.addHeldBack(r.share);
    return true;
  }

  /** One step of the period: as a whole, or in parts where a device or the regulator switches in it. */
  function advance(k: number): boolean {
    if (regulates) comparator.command(stage);
    // A loop: on arrays this short it is several times faster than set().
    for (let d = 0; d < DEVICES; d++) savedPiece[d] = piece[d]!;
    const { frame, leak } = stage;
    const { filtered } = comparator;
    sums.mark(measuring);
    if (!stepAt(coarse, k)) return false;
    if (!switches()) {
      keep();
      return true;
    }
    for (let d = 0; d < DEVICES; d++) piece[d] = savedPiece[d]!;
    stage.frame = frame;
    stage.leak = leak;
    comparator.filtered = filtered;
    sums.backToMark(measuring);
    for (let part = 0; part < PARTS; part++) {
      if (part > 0 && regulates) comparator.command(stage);
      if (!stepAt(fine, k * PARTS + part)) return false;
      keep();
    }
    return true;
  }

  function keep(): void {
    for (let c = 0; c < n; c++) current[c] = amps[c]!;
  }

  function switches(): boolean {
    for (let d = 0; d < DEVICES; d++) if (conducts[piece[d]!] !== conducts[savedPiece[d]!]) return true;
    return regulates && comparator.crosses();
  }

  /** One whole period; false where a step has no solution. */
  function turn(samples?: Float64Array, from = 0): boolean {
    stage.source = (battery.ocvVolts + polarization(battery, self.slowAmps)) * postShare;
    for (let k = 0; k < STEPS; k++) {
      if (!advance(k)) return false;
      if (samples) samples[from + k] = stage.source + postOhms * stage.output;
    }
    return true;
  }

  function batteryAmps(rectifierAmps: number): number {
    return rectifierAmps - (stage.source + postOhms * rectifierAmps) * loadSiemens;
  }

  function run(): number {
    measuring = false;
    comparator.toggles = 0;
    sums.clear();
    const solved = turn();
    if (blind > 0) blind--;
    comparator.looks = blind === 0;
    return solved ? batteryAmps(sums.rectifier() / STEPS) : Number.NaN;
  }

  function measure(periods: number, samples?: Float64Array): Means | null {
    measuring = true;
    comparator.toggles = 0;
    sums.clear();
    const half = Math.floor(periods / 2);
    let first = 0;
    for (let period = 0; period < periods; period++) {
      if (period === half) first = sums.rectifier();
      if (!turn(samples, period * STEPS)) return null;
    }
    const second = sums.rectifier() - first;
    const mean = sums.rectifier() / (periods * STEPS);
    const halves: [number, number] =
      half === 0 ? [mean, mean] : [first / (half * STEPS), second / ((periods - half) * STEPS)];
    return sums.means(periods * STEPS, self.slowAmps, halves);
  }
}
