import { polarization } from "./battery-law";
import { pieceTable } from "./device-pieces";
import { diodeAt } from "./diode-law";
import { COARSE, FINE, GAMMA, PARTS, STEPS } from "./emf-table";
import { reduce } from "./linear-reduction";
import { legsOf, statorNetwork, windingPeakVolts } from "./stator-network";
import type { ChargingSystem, Conditions } from "./types";

/** An engine runs up slowly, so the start's own inrush must not trip the regulator: it is over after these periods. */
export const START_PERIODS = 6;
/** A fired device stays on above this current [A]. */
const HOLDING_AMPS = 1e-3;
const MOST_ITERATIONS = 80;
const SECOND_BASE = (1 - GAMMA) / GAMMA;

/** Means over the measured stretch. */
export interface Means {
  readonly rectifierAmps: number;
  /** Current that the polarization stood at [A]. */
  readonly slowAmps: number;
  readonly rectifierSquare: number;
  /** Mean of the first and of the second half [A]. */
  readonly halves: readonly [number, number];
  readonly duty: number;
  readonly lineSquare: readonly [number, number, number];
  readonly plugSquare: readonly [number, number, number];
  readonly plusVolts: number;
  readonly leakAmps: number;
  readonly coilWatts: number;
  readonly emfWatts: number;
  /** Power into the bridge's AC terminals and out of its B+ terminal [W]. */
  readonly terminalWatts: number;
  readonly outputWatts: number;
}

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
}

/** What changes at every stage: inflow and voltage at the three terminals, and the DC side. */
const enum Now {
  inflow,
  volts = inflow + 3,
  plus = volts + 3,
  output,
  frame,
  leak,
  filtered,
  /** Open-circuit voltage at the posts, load included. */
  source,
  count,
}

/** What is summed over the stages while measuring. */
const enum Sum {
  rectifier,
  rectifierSquare,
  duty,
  plus,
  leak,
  coil,
  emf,
  terminal,
  output,
  line,
  plug = line + 3,
  count = plug + 3,
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
  const n = coarse.coils;
  const leaks = coarse.leakSiemens > 0;
  const coilWinding = Int32Array.from(network.coils, (c) => c.winding);
  const coilPeak = Float64Array.from(network.coils, (c) => c.share * peak);
  const coilOhms = Float64Array.from(network.coils, (c) => c.ohms);

  // Devices 0–2 phase → B+, 3–5 ground → phase, 6–8 the shunt devices phase → ground.
  const table = pieceTable(diodeAt(bridge.diode, at.regulatorCelsius), bridge.shortOhms);
  const { low, high, slope, offset, conducts } = table;
  const piece = new Int32Array(9);
  const series = regulator.kind === "series";
  const regulates = series || regulator.kind === "shunt";
  const follows: number[] = [];
  const legs = legsOf(alternator.kind);
  for (let k = 0; k < 3; k++) {
    const kind = (state: "ok" | "open" | "short", ok: number) =>
      state === "ok" ? ok : state === "short" ? table.shorted : table.blocked;
    const up = legs.upper[k] ? kind(bridge.upper[k]!, series ? table.controlled : table.plain) : table.blocked;
    piece[k] = up;
    piece[k + 3] = legs.lower[k] ? kind(bridge.lower[k]!, table.plain) : table.blocked;
    piece[k + 6] = table.blocked;
    const stuck = regulator.stuck[k];
    if (series && up === table.controlled) {
      if (stuck === "off") piece[k] = table.blocked;
      else if (stuck === null) follows.push(k);
    } else if (regulator.kind === "shunt" && legs.upper[k]) {
      if (stuck === "on") piece[k + 6] = table.controlled;
      else if (stuck === null) follows.push(k + 6);
    }
  }
  const followers = Int32Array.from(follows);
  const active = new Uint8Array(9);
  const startPiece = Int32Array.from(piece);

  const loadSiemens = at.loadAmps / 13.5;
  const postShare = 1 / (1 + battery.ohms * loadSiemens);
  const postOhms = battery.ohms * postShare;
  const minusOhms = harness.groundOhms;
  const dcOhms = harness.bplusOhms + postOhms + minusOhms;
  const atPosts = regulator.senses === "battery";
  const level = regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
  const trip = level + regulator.hysteresisHalfVolts;
  const release = level - regulator.hysteresisHalfVolts;

  const current = new Float64Array(n);
  const base = new Float64Array(n);
  const history = new Float64Array(n);
  const emf = new Float64Array(n);
  const stage = new Float64Array(n);
  const sums = new Float64Array(Sum.count);
  const savedSums = new Float64Array(Sum.count);
  const savedPiece = new Int32Array(9);
  // Numbers that change at every stage live in one array: closures would box them.
  const now = new Float64Array(Now.count);
  const savedNow = new Float64Array(Now.count);
  let over = false;
  let toggles = 0;
  let measuring = false;
  /** Periods for which the comparator does not look yet. */
  let blind = 0;
  type Resolution = typeof coarse;

  const self: Stepper = {
    hertz,
    slowAmps: 0,
    toggles: () => (followers.length > 0 ? toggles : 0),
    reset,
    run,
    measure,
    coilAmps: current,
  };
  reset();
  return self;

  function reset(): void {
    current.fill(0);
    now.fill(0);
    now[Now.plus] = battery.ocvVolts;
    now[Now.filtered] = battery.ocvVolts;
    over = false;
    blind = START_PERIODS;
    piece.set(startPiece);
    for (let k = 0; k < followers.length; k++) active[followers[k]!] = series ? 1 : 0;
  }

  /** Node voltages of one stage; the pieces of the stage before are tried first. */
  function solve(y: Float64Array): boolean {
    const source = now[Now.source]! + minusOhms * now[Now.leak]!;
    const j0 = now[Now.inflow]!;
    const j1 = now[Now.inflow + 1]!;
    const j2 = now[Now.inflow + 2]!;
    const y00 = y[0]!;
    const y01 = y[1]!;
    const y02 = y[2]!;
    const y11 = y[4]!;
    const y12 = y[5]!;
    const y22 = y[8]!;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      const u0 = piece[0]!;
      const u1 = piece[1]!;
      const u2 = piece[2]!;
      const l0 = piece[3]!;
      const l1 = piece[4]!;
      const l2 = piece[5]!;
      const s0 = piece[6]!;
      const s1 = piece[7]!;
      const s2 = piece[8]!;
      const g0 = slope[u0]!;
      const g1 = slope[u1]!;
      const g2 = slope[u2]!;
      const c0 = offset[u0]!;
      const c1 = offset[u1]!;
      const c2 = offset[u2]!;
      // B+ eliminated: V+ = drive + kappa·Σ g·v.
      const share = 1 / (1 + dcOhms * (g0 + g1 + g2));
      const kappa = dcOhms * share;
      const drive = source * share - kappa * (c0 + c1 + c2);
      const k0 = g0 * kappa;
      const k1 = g1 * kappa;
      const a00 = y00 + g0 + slope[l0]! + slope[s0]! - k0 * g0;
      const a01 = y01 - k0 * g1;
      const a02 = y02 - k0 * g2;
      const a11 = y11 + g1 + slope[l1]! + slope[s1]! - k1 * g1;
      const a12 = y12 - k1 * g2;
      const a22 = y22 + g2 + slope[l2]! + slope[s2]! - g2 * kappa * g2;
      const r0 = j0 + c0 - offset[l0]! + offset[s0]! + g0 * drive;
      const r1 = j1 + c1 - offset[l1]! + offset[s1]! + g1 * drive;
      const r2 = j2 + c2 - offset[l2]! + offset[s2]! + g2 * drive;
      // LDLᵀ of the symmetric system.
      const m10 = a01 / a00;
      const m20 = a02 / a00;
      const d1 = a11 - m10 * a01;
      const n21 = a12 - m10 * a02;
      const m21 = n21 / d1;
      const d2 = a22 - m20 * a02 - m21 * n21;
      const z1 = r1 - m10 * r0;
      const v2 = (r2 - m20 * r0 - m21 * z1) / d2;
      const v1 = z1 / d1 - m21 * v2;
      const v0 = r0 / a00 - m10 * v1 - m20 * v2;
      const plus = drive + kappa * (g0 * v0 + g1 * v1 + g2 * v2);
      // Rarely the pieces go in a circle; then each may move by one only.
      const far = iteration > 15 ? 1 : 32;
      let moved = 0;
      let x = v0 - plus;
      if (x < low[u0]! || x >= high[u0]!) moved |= move(0, x, far);
      x = v1 - plus;
      if (x < low[u1]! || x >= high[u1]!) moved |= move(1, x, far);
      x = v2 - plus;
      if (x < low[u2]! || x >= high[u2]!) moved |= move(2, x, far);
      if (-v0 < low[l0]! || -v0 >= high[l0]!) moved |= move(3, -v0, far);
      if (-v1 < low[l1]! || -v1 >= high[l1]!) moved |= move(4, -v1, far);
      if (-v2 < low[l2]! || -v2 >= high[l2]!) moved |= move(5, -v2, far);
      if (v0 < low[s0]! || v0 >= high[s0]!) moved |= move(6, v0, far);
      if (v1 < low[s1]! || v1 >= high[s1]!) moved |= move(7, v1, far);
      if (v2 < low[s2]! || v2 >= high[s2]!) moved |= move(8, v2, far);
      if (moved === 0) {
        now[Now.volts] = v0;
        now[Now.volts + 1] = v1;
        now[Now.volts + 2] = v2;
        now[Now.plus] = plus;
        now[Now.output] = g0 * (v0 - plus) - c0 + g1 * (v1 - plus) - c1 + g2 * (v2 - plus) - c2;
        return true;
      }
    }
    return false;
  }

  /** Puts a device onto the piece its voltage lies on, at most `far` pieces away. */
  function move(device: number, volts: number, far: number): number {
    const was = piece[device]!;
    let to = was;
    while (volts < low[to]! && was - to < far) to--;
    while (volts >= high[to]! && to - was < far) to++;
    piece[device] = to;
    return to === was ? 0 : 1;
  }

  /** One stage from `base`; leaves the coil currents in `stage`. */
  function stageAt(r: Resolution, row: number): boolean {
    const { q, s, inductance } = r;
    const { first, fifth, seventh } = r;
    const frame = now[Now.frame]!;
    let j0 = r.leakJ[0]! * frame;
    let j1 = r.leakJ[1]! * frame;
    let j2 = r.leakJ[2]! * frame;
    for (let k = 0; k < n; k++) {
      const at = row + coilWinding[k]!;
      const volts = coilPeak[k]! * (first[at]! + harmonic5 * fifth[at]! + harmonic7 * seventh[at]!);
      emf[k] = volts;
      let sum = volts;
      for (let c = 0; c < n; c++) sum += inductance[k * n + c]! * base[c]!;
      history[k] = sum;
      j0 -= s[k * 3]! * sum;
      j1 -= s[k * 3 + 1]! * sum;
      j2 -= s[k * 3 + 2]! * sum;
    }
    now[Now.inflow] = j0;
    now[Now.inflow + 1] = j1;
    now[Now.inflow + 2] = j2;
    if (!solve(r.y)) return false;
    const v0 = now[Now.volts]!;
    const v1 = now[Now.volts + 1]!;
    const v2 = now[Now.volts + 2]!;
    for (let k = 0; k < n; k++) {
      let sum = s[k * 3]! * v0 + s[k * 3 + 1]! * v1 + s[k * 3 + 2]! * v2 + r.leakI[k]! * frame;
      for (let c = 0; c < n; c++) sum += q[k * n + c]! * history[c]!;
      stage[k] = sum;
    }
    if (leaks) {
      let tap = r.leakT[0]! * v0 + r.leakT[1]! * v1 + r.leakT[2]! * v2 + r.leakSelf * frame;
      for (let k = 0; k < n; k++) tap += r.leakH[k]! * history[k]!;
      const leak = r.leakSiemens * (tap - frame);
      now[Now.leak] = leak;
      now[Now.frame] = minusOhms * (now[Now.output]! + leak);
    }
    return true;
  }

  /** One time step at a resolution; false where no solution was found. */
  function stepAt(r: Resolution, k: number): boolean {
    for (let c = 0; c < n; c++) base[c] = current[c]!;
    if (!stageAt(r, k * 6)) return false;
    collect(r, 0);
    const gain = r.filterGain;
    const filtered = now[Now.filtered]!;
    const first =
      (filtered + gain * (atPosts ? now[Now.source]! + postOhms * now[Now.output]! : now[Now.plus]!)) / (1 + gain);
    for (let c = 0; c < n; c++) base[c] = current[c]! + SECOND_BASE * (stage[c]! - current[c]!);
    if (!stageAt(r, k * 6 + 3)) return false;
    collect(r, 1);
    const second = filtered + SECOND_BASE * (first - filtered);
    now[Now.filtered] =
      (second + gain * (atPosts ? now[Now.source]! + postOhms * now[Now.output]! : now[Now.plus]!)) / (1 + gain);
    if (over) sums[Sum.duty]! += r.share;
    return true;
  }

  /** One step of the period: as a whole, or in parts where a device or the regulator switches in it. */
  function advance(k: number): boolean {
    if (regulates) command();
    // Loops: on arrays this short they are several times faster than set().
    for (let d = 0; d < 9; d++) savedPiece[d] = piece[d]!;
    for (let k = 0; k < Now.count; k++) savedNow[k] = now[k]!;
    const depth = measuring ? Sum.count : 1;
    for (let k = 0; k < depth; k++) savedSums[k] = sums[k]!;
    const savedDuty = sums[Sum.duty]!;
    if (!stepAt(coarse, k)) return false;
    if (!switches()) {
      keep();
      return true;
    }
    for (let d = 0; d < 9; d++) piece[d] = savedPiece[d]!;
    for (let k = 0; k < Now.count; k++) now[k] = savedNow[k]!;
    for (let k = 0; k < depth; k++) sums[k] = savedSums[k]!;
    sums[Sum.duty] = savedDuty;
    for (let part = 0; part < PARTS; part++) {
      if (part > 0 && regulates) command();
      if (!stepAt(fine, k * PARTS + part)) return false;
      keep();
    }
    return true;
  }

  function keep(): void {
    for (let c = 0; c < n; c++) current[c] = stage[c]!;
  }

  function switches(): boolean {
    for (let d = 0; d < 9; d++) if (conducts[piece[d]!] !== conducts[savedPiece[d]!]) return true;
    return regulates && blind === 0 && crosses();
  }

  function crosses(): boolean {
    return over ? now[Now.filtered]! < release : now[Now.filtered]! > trip;
  }

  /** The comparator, and what it lets the controlled devices do from here on. */
  function command(): void {
    if (blind === 0 && crosses()) {
      over = !over;
      toggles++;
    }
    const gate = series ? !over : over;
    for (let k = 0; k < followers.length; k++) {
      const d = followers[k]!;
      if (active[d] === 1) {
        if (gate) continue;
        const v = d < 3 ? now[Now.volts + d]! - now[Now.plus]! : now[Now.volts + d - 6]!;
        if (slope[piece[d]!]! * v - offset[piece[d]!]! < HOLDING_AMPS) {
          active[d] = 0;
          piece[d] = table.blocked;
        }
      } else if (gate) {
        active[d] = 1;
        piece[d] = table.controlled;
      }
    }
  }

  function collect(r: Resolution, second: number): void {
    const weight = r.share * (second === 1 ? GAMMA : 1 - GAMMA);
    const output = now[Now.output]!;
    sums[Sum.rectifier]! += weight * output;
    if (!measuring) return;
    const { y, t, p } = r;
    const v0 = now[Now.volts]!;
    const v1 = now[Now.volts + 1]!;
    const v2 = now[Now.volts + 2]!;
    const plus = now[Now.plus]!;
    const frame = now[Now.frame]!;
    sums[Sum.rectifierSquare]! += weight * output * output;
    sums[Sum.plus]! += weight * plus;
    sums[Sum.leak]! += weight * now[Now.leak]!;
    sums[Sum.output]! += weight * output * plus;
    const i0 = now[Now.inflow]! - y[0]! * v0 - y[1]! * v1 - y[2]! * v2;
    const i1 = now[Now.inflow + 1]! - y[3]! * v0 - y[4]! * v1 - y[5]! * v2;
    const i2 = now[Now.inflow + 2]! - y[6]! * v0 - y[7]! * v1 - y[8]! * v2;
    sums[Sum.line]! += weight * i0 * i0;
    sums[Sum.line + 1]! += weight * i1 * i1;
    sums[Sum.line + 2]! += weight * i2 * i2;
    sums[Sum.terminal]! += weight * (i0 * v0 + i1 * v1 + i2 * v2);
    let p0 = t[0]! * v0 + t[1]! * v1 + t[2]! * v2 + r.leakP[0]! * frame;
    let p1 = t[3]! * v0 + t[4]! * v1 + t[5]! * v2 + r.leakP[1]! * frame;
    let p2 = t[6]! * v0 + t[7]! * v1 + t[8]! * v2 + r.leakP[2]! * frame;
    for (let k = 0; k < n; k++) {
      const h = history[k]!;
      const amps = stage[k]!;
      p0 += p[k]! * h;
      p1 += p[n + k]! * h;
      p2 += p[2 * n + k]! * h;
      sums[Sum.coil]! += weight * coilOhms[k]! * amps * amps;
      sums[Sum.emf]! += weight * emf[k]! * amps;
    }
    sums[Sum.plug]! += weight * (p0 - p1) * (p0 - p1);
    sums[Sum.plug + 1]! += weight * (p1 - p2) * (p1 - p2);
    sums[Sum.plug + 2]! += weight * (p2 - p0) * (p2 - p0);
  }

  /** One whole period; false where a step has no solution. */
  function turn(samples?: Float64Array, from = 0): boolean {
    now[Now.source] = (battery.ocvVolts + polarization(battery, self.slowAmps)) * postShare;
    for (let k = 0; k < STEPS; k++) {
      if (!advance(k)) return false;
      if (samples) samples[from + k] = now[Now.source]! + postOhms * now[Now.output]!;
    }
    return true;
  }

  function batteryAmps(rectifierAmps: number): number {
    return rectifierAmps - (now[Now.source]! + postOhms * rectifierAmps) * loadSiemens;
  }

  function run(): number {
    measuring = false;
    toggles = 0;
    sums.fill(0);
    const solved = turn();
    if (blind > 0) blind--;
    return solved ? batteryAmps(sums[Sum.rectifier]! / STEPS) : Number.NaN;
  }

  function measure(periods: number, samples?: Float64Array): Means | null {
    measuring = true;
    toggles = 0;
    sums.fill(0);
    const half = Math.floor(periods / 2);
    let first = 0;
    for (let period = 0; period < periods; period++) {
      if (period === half) first = sums[Sum.rectifier]!;
      if (!turn(samples, period * STEPS)) return null;
    }
    const count = periods * STEPS;
    const mean = (of: Sum) => sums[of]! / count;
    const three = (of: Sum) => [mean(of), mean(of + 1), mean(of + 2)] as const;
    const rectifier = sums[Sum.rectifier]!;
    return {
      rectifierAmps: rectifier / count,
      slowAmps: self.slowAmps,
      rectifierSquare: mean(Sum.rectifierSquare),
      halves:
        half === 0
          ? [rectifier / count, rectifier / count]
          : [first / (half * STEPS), (rectifier - first) / ((periods - half) * STEPS)],
      duty: mean(Sum.duty),
      lineSquare: three(Sum.line),
      plugSquare: three(Sum.plug),
      plusVolts: mean(Sum.plus),
      leakAmps: mean(Sum.leak),
      coilWatts: mean(Sum.coil),
      emfWatts: mean(Sum.emf),
      terminalWatts: mean(Sum.terminal),
      outputWatts: mean(Sum.output),
    };
  }
}
