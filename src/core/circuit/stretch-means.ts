import type { Reduction } from "./linear-reduction";
import type { Stage } from "./stage";

/** Means over a measured stretch. */
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

/** What is summed over the stages. */
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

/** Sums over the stages of a stretch; `mark` keeps them where a step may be gone through again. */
export interface StretchSums {
  clear(): void;
  mark(full: boolean): void;
  backToMark(full: boolean): void;
  /** A stage that stands for `weight` steps; `full` for everything, else the rectifier's current alone. */
  add(stage: Stage, reduction: Reduction, weight: number, full: boolean): void;
  addHeldBack(share: number): void;
  rectifier(): number;
  /** @param count - Steps in the stretch; `halves` as in {@link Means} */
  means(count: number, slowAmps: number, halves: readonly [number, number]): Means;
}

export function stretchSums(coilOhms: Float64Array): StretchSums {
  const n = coilOhms.length;
  const sums = new Float64Array(Sum.count);
  const marked = new Float64Array(Sum.count);
  return {
    clear: () => void sums.fill(0),
    mark,
    backToMark,
    add,
    addHeldBack,
    rectifier: () => sums[Sum.rectifier]!,
    means,
  };

  function mark(full: boolean): void {
    // Loops: on arrays this short they are several times faster than set().
    const depth = full ? Sum.count : Sum.duty + 1;
    for (let k = 0; k < depth; k++) marked[k] = sums[k]!;
  }

  function backToMark(full: boolean): void {
    const depth = full ? Sum.count : Sum.duty + 1;
    for (let k = 0; k < depth; k++) sums[k] = marked[k]!;
  }

  function addHeldBack(share: number): void {
    sums[Sum.duty]! += share;
  }

  function add(stage: Stage, r: Reduction, weight: number, full: boolean): void {
    const { inflow, volts, emf, history, amps, output, plus, frame } = stage;
    sums[Sum.rectifier]! += weight * output;
    if (!full) return;
    const { y, t, p } = r;
    const v0 = volts[0]!;
    const v1 = volts[1]!;
    const v2 = volts[2]!;
    sums[Sum.rectifierSquare]! += weight * output * output;
    sums[Sum.plus]! += weight * plus;
    sums[Sum.leak]! += weight * stage.leak;
    sums[Sum.output]! += weight * output * plus;
    const i0 = inflow[0]! - y[0]! * v0 - y[1]! * v1 - y[2]! * v2;
    const i1 = inflow[1]! - y[3]! * v0 - y[4]! * v1 - y[5]! * v2;
    const i2 = inflow[2]! - y[6]! * v0 - y[7]! * v1 - y[8]! * v2;
    sums[Sum.line]! += weight * i0 * i0;
    sums[Sum.line + 1]! += weight * i1 * i1;
    sums[Sum.line + 2]! += weight * i2 * i2;
    sums[Sum.terminal]! += weight * (i0 * v0 + i1 * v1 + i2 * v2);
    let p0 = t[0]! * v0 + t[1]! * v1 + t[2]! * v2 + r.leakP[0]! * frame;
    let p1 = t[3]! * v0 + t[4]! * v1 + t[5]! * v2 + r.leakP[1]! * frame;
    let p2 = t[6]! * v0 + t[7]! * v1 + t[8]! * v2 + r.leakP[2]! * frame;
    for (let k = 0; k < n; k++) {
      const h = history[k]!;
      const i = amps[k]!;
      p0 += p[k]! * h;
      p1 += p[n + k]! * h;
      p2 += p[2 * n + k]! * h;
      sums[Sum.coil]! += weight * coilOhms[k]! * i * i;
      sums[Sum.emf]! += weight * emf[k]! * i;
    }
    sums[Sum.plug]! += weight * (p0 - p1) * (p0 - p1);
    sums[Sum.plug + 1]! += weight * (p1 - p2) * (p1 - p2);
    sums[Sum.plug + 2]! += weight * (p2 - p0) * (p2 - p0);
  }

  function means(count: number, slowAmps: number, halves: readonly [number, number]): Means {
    const mean = (of: Sum) => sums[of]! / count;
    const three = (of: Sum) => [mean(of), mean(of + 1), mean(of + 2)] as const;
    return {
      rectifierAmps: mean(Sum.rectifier),
      slowAmps,
      rectifierSquare: mean(Sum.rectifierSquare),
      halves,
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

/** Two stretches as one, `share` of it the second. */
export function pooled(sum: Means, next: Means, share: number): Means {
  const mix = (a: number, b: number) => a + (b - a) * share;
  const three = (a: readonly [number, number, number], b: readonly [number, number, number]) =>
    [mix(a[0], b[0]), mix(a[1], b[1]), mix(a[2], b[2])] as const;
  const out = Object.fromEntries(
    Object.entries(sum).map(([key, value]) => [
      key,
      typeof value === "number" ? mix(value, next[key as "duty"]) : value,
    ]),
  ) as unknown as Means;
  return {
    ...out,
    halves: [mix(sum.halves[0], next.halves[0]), mix(sum.halves[1], next.halves[1])],
    lineSquare: three(sum.lineSquare, next.lineSquare),
    plugSquare: three(sum.plugSquare, next.plugSquare),
  };
}
