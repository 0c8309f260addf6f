import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { checkSystem } from "./check-system";
import type { Range3 } from "./expected-running";
import { systemFromMachine, type MachineModel } from "./machine-from-job";
import { closedForm, meanPoint } from "./mean-point";
import type { Case } from "./spreads";

export interface CurvePoint {
  readonly rpm: number;
  /** At the battery posts [V]. */
  readonly volts: Range3;
  /** Into the battery, likely [A]. */
  readonly amps: number;
}

/**
 * The machine's curve: running voltage with its band, and battery current, over speed.
 *
 * The band comes from two unlucky and two lucky sisters of the machine: every unknown moved together
 * in the direction in which the voltage changes fastest, far enough that 5 in 100 lie beyond; one pair
 * where the machine is the limit, one where the regulator is.
 *
 * @param job - Machine data by catalogue id
 * @param loadAmps - Load at 13.5 V [A], 0 to 300; the machine's own where left out
 * @returns The curve as a function of engine speed [rpm], 0 to 20000; the faults of `systemFromMachine`
 * @source common-practice (spreads), computed by the circuit
 */
export function curveWith(job: Job, loadAmps?: number): Result<(rpm: number) => Result<CurvePoint>> {
  return andThen(systemFromMachine(job), (machine) => {
    const given = (rpm: number): Case => ({ system: machine.system, at: machine.at(rpm, loadAmps) });
    const sisters = sistersOf(machine, given);
    return ok((rpm: number) => curvePoint(given(rpm), sisters));
  });
}

/** The curve at a list of speeds, in the order given. */
export function machineCurve(job: Job, speeds: readonly number[], loadAmps?: number): Result<readonly CurvePoint[]> {
  return andThen(curveWith(job, loadAmps), (at) => {
    const points: CurvePoint[] = [];
    for (const rpm of speeds) {
      const point = at(rpm);
      if (!point.ok) return point;
      points.push(point.value);
    }
    return ok(points);
  });
}

function curvePoint({ system, at }: Case, sisters: readonly Sister[]): Result<CurvePoint> {
  const checked = checkSystem(system, at);
  if (!checked.ok) return checked;
  const quick = quickPoint({ system, at });
  const likely = quick?.valid ? ok(quick.point) : meanPoint(system, at);
  if (!likely.ok) return likely;
  const { batteryVolts, batteryAmps, errorVolts } = likely.value;
  // Near the start of conduction the sisters are compared in closed form: only their distance counts.
  const centre = quick?.point.batteryVolts ?? batteryVolts;
  let low = batteryVolts;
  let high = batteryVolts;
  for (const sister of sisters) {
    const volts = batteryVolts + quickVolts(sister(at.rpm)) - centre;
    low = Math.min(low, volts);
    high = Math.max(high, volts);
  }
  return ok({
    rpm: at.rpm,
    volts: { low: low - errorVolts, likely: batteryVolts, high: high + errorVolts },
    amps: batteryAmps,
  });
}

/** Another machine of the same data, at a speed. */
type Sister = (rpm: number) => Case;

/** The unlucky and the lucky machine, where the machine is the limit and where the regulator is. */
function sistersOf(machine: MachineModel, given: (rpm: number) => Case): readonly Sister[] {
  return [WEAK_RPM, STRONG_RPM].flatMap((rpm) => {
    const from = given(rpm);
    const slopes = machine.spreads.map(
      (spread) => (quickVolts(spread.vary(from, 1)) - quickVolts(spread.vary(from, -1))) / 2,
    );
    const size = Math.hypot(...slopes);
    if (size === 0) return [];
    return [-2, 2].map((side): Sister => {
      const moved = machine.spreads.reduce((one, spread, k) => spread.vary(one, (side * slopes[k]!) / size), from);
      return (at) => ({ system: moved.system, at: { ...moved.at, rpm: (at * moved.at.rpm) / rpm } });
    });
  });
}

const WEAK_RPM = 1300;
const STRONG_RPM = 5000;

/** The closed form, valid or not; `null` where there is none. */
function quickPoint({ system, at }: Case): ReturnType<typeof closedForm> | null {
  return at.rpm === 0 || system.alternator.kind === "field-excited" ? null : closedForm(system, at);
}

function quickVolts(given: Case): number {
  const quick = quickPoint(given);
  if (quick) return quick.point.batteryVolts;
  const point = meanPoint(given.system, given.at);
  return point.ok ? point.value.batteryVolts : given.system.battery.ocvVolts;
}

/** Lowest and highest speed between which a break-even is looked for [rpm]. */
const SLOWEST = 200;
const FASTEST = 12000;

/**
 * Engine speed from which on the battery gains: the machine carries its load alone.
 *
 * @param job - Machine data by catalogue id
 * @param loadAmps - Load at 13.5 V [A]; the machine's own where left out
 * @returns Likely speed, with the speeds of a strong (low) and a weak (high) machine [rpm]; `refused`
 *   where the load is more than the machine gives at any speed
 */
export function breakEven(job: Job, loadAmps?: number): Result<Range3> {
  return andThen(systemFromMachine(job), (machine) => {
    const given = (rpm: number): Case => ({ system: machine.system, at: machine.at(rpm, loadAmps) });
    const checked = checkSystem(machine.system, machine.at(1000, loadAmps));
    if (!checked.ok) return checked;
    const likely = balanceSpeed(given, gain);
    if (!likely.ok) return likely;
    // Its sisters are compared in closed form, as a ratio: it counts near the start of conduction and for half waves too.
    const quick = balanceSpeed(given, quickGain);
    if (!quick.ok) return ok({ low: likely.value, likely: likely.value, high: FASTEST });
    const from = given(quick.value);
    // Moved at the balance itself, where the machine is always the limit.
    const slopes = machine.spreads.map(
      (spread) => (quickGain(spread.vary(from, 1)) - quickGain(spread.vary(from, -1))) / 2,
    );
    const size = Math.hypot(...slopes) || 1;
    const moved = (side: number) => (rpm: number) =>
      machine.spreads.reduce((one, spread, k) => spread.vary(one, (side * slopes[k]!) / size), given(rpm));
    const strong = balanceSpeed(moved(2), quickGain);
    const weak = balanceSpeed(moved(-2), quickGain);
    const ratio = likely.value / quick.value;
    return ok({
      low: strong.ok ? Math.min(ratio * strong.value, likely.value) : likely.value,
      likely: likely.value,
      high: weak.ok ? Math.max(ratio * weak.value, likely.value) : FASTEST,
    });
  });
}

function gain({ system, at }: Case): number {
  const point = meanPoint(system, at);
  return point.ok ? point.value.batteryAmps : Number.NaN;
}

/** The same in closed form, for sisters of which only the distance counts. */
function quickGain(given: Case): number {
  return given.system.alternator.kind === "field-excited"
    ? gain(given)
    : closedForm(given.system, given.at).point.batteryAmps;
}

function balanceSpeed(given: (rpm: number) => Case, gainOf: (one: Case) => number): Result<number> {
  let low = SLOWEST;
  let high = FASTEST;
  const top = gainOf(given(high));
  if (Number.isNaN(top)) return fail({ code: "not-converged", what: "break-even speed" });
  if (top < 0) {
    return fail({
      code: "refused",
      what: "load",
      why: "it is more than this machine gives at any speed",
      instead: "switch something off, or check the rated output",
    });
  }
  if (gainOf(given(low)) >= 0) return ok(low);
  for (let k = 0; k < 40 && high - low > 0.5; k++) {
    const middle = 0.5 * (low + high);
    const gained = gainOf(given(middle));
    if (Number.isNaN(gained)) return fail({ code: "not-converged", what: "break-even speed" });
    if (gained < 0) low = middle;
    else high = middle;
  }
  return ok(0.5 * (low + high));
}
