import type { Job } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import { unregulated } from "./averaged";
import { checkSystem } from "./check-system";
import { batteryAlone, type DcState } from "./dc-side";
import { systemFromMachine, type MachineModel } from "./machine-from-job";
import { closedForm, meanPoint, type MeanPoint } from "./mean-point";
import type { Case } from "./spreads";

/** Low, likely and high: 95 of 100 healthy machines of these data lie between low and high. */
export interface Range3 {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** What a healthy machine of these data should show at the battery posts. */
export interface ExpectedRunning {
  readonly volts: Range3;
  /** Into the battery [A]. */
  readonly amps: Range3;
  readonly limitedBy: MeanPoint["limitedBy"];
  readonly model: MeanPoint["model"];
  /** What was not given and is taken as typical. */
  readonly assumed: readonly string[];
}

/**
 * Running voltage and battery current that a healthy machine should show, with everything that is
 * not known of it, and the model's own error, in the band.
 *
 * @param job - Machine data and readings by catalogue id
 * @param rpm - Engine speed [rpm], 0 to 20000
 * @param loadAmps - Load at 13.5 V [A], 0 to 300; the machine's own load where left out
 * @returns The band; `outside-range`, `refused` for data that contradict each other, `not-converged`
 * @source common-practice (spreads), computed by the circuit
 */
export function expectedRunning(job: Job, rpm: number, loadAmps?: number): Result<ExpectedRunning> {
  return andThen(systemFromMachine(job), (machine) => expectedOf(machine, rpm, loadAmps));
}

/** The same for a machine that was read already. */
export function expectedOf(machine: MachineModel, rpm: number, loadAmps?: number): Result<ExpectedRunning> {
  const given: Case = { system: machine.system, at: machine.at(rpm, loadAmps) };
  const checked = checkSystem(given.system, given.at);
  if (!checked.ok) return checked;
  const likely = meanPoint(given.system, given.at);
  if (!likely.ok) return likely;
  const { batteryVolts, batteryAmps, limitedBy, model, errorVolts } = likely.value;
  // Neighbours are compared in closed form, where only their distance from this machine counts.
  const centre = neighbour(given);
  const volts = spreadAround((errorVolts / 2) ** 2);
  const amps = spreadAround(0);
  for (const spread of machine.spreads) {
    const below = neighbour(spread.vary(given, -1));
    const above = neighbour(spread.vary(given, 1));
    volts.add(below.batteryVolts - centre.batteryVolts, above.batteryVolts - centre.batteryVolts);
    amps.add(below.batteryAmps - centre.batteryAmps, above.batteryAmps - centre.batteryAmps);
  }
  const floor = leastVolts(machine, given);
  const ceiling = mostVolts(machine, rpm, loadAmps, limitedBy);
  return ok({
    volts: {
      low: Math.min(batteryVolts, Math.max(floor, batteryVolts - volts.down())),
      likely: batteryVolts,
      high: Math.max(batteryVolts, Math.min(ceiling, batteryVolts + volts.up())),
    },
    amps: {
      low: batteryAmps - amps.down(),
      likely: batteryAmps,
      high: Math.min(batteryAmps + amps.up(), mostAmps(given, batteryAmps)),
    },
    limitedBy,
    model,
    assumed: machine.assumed,
  });
}

function neighbour({ system, at }: Case): DcState {
  if (system.alternator.kind !== "field-excited") return closedForm(system, at).point;
  const point = meanPoint(system, at);
  return point.ok ? point.value : batteryAlone(system, at);
}

/** However weak the machine, the battery carries the load: its own voltage is the floor. */
function leastVolts(machine: MachineModel, given: Case): number {
  return Math.min(
    ...machine.spreads.map((spread) => {
      const { system, at } = spread.vary(given, -2);
      return batteryAlone(system, at).batteryVolts;
    }),
  );
}

/** Speed at which the regulator is surely the limit. */
const FULL_RPM = 5000;

/** A machine that happens to be strong is still held by its regulator. */
function mostVolts(
  machine: MachineModel,
  rpm: number,
  loadAmps: number | undefined,
  limitedBy: MeanPoint["limitedBy"],
): number {
  if (limitedBy === "regulator" || rpm >= FULL_RPM || machine.system.alternator.kind === "field-excited")
    return Infinity;
  const full = expectedOf(machine, FULL_RPM, loadAmps);
  return full.ok && full.value.limitedBy === "regulator" ? full.value.volts.high : Infinity;
}

/** No battery takes more than the machine can give without its regulator, and a fifth for a strong one. */
function mostAmps({ system, at }: Case, likely: number): number {
  if (system.alternator.kind === "field-excited") return Infinity;
  return Math.max(likely, likely + 0.2 * Math.abs(likely), 1.2 * unregulated(system, at).batteryAmps + 1);
}

/**
 * Adds independent deviations up by squares, upward and downward apart: a voltage that the regulator
 * holds from above can still fall. Two standard deviations come out.
 */
function spreadAround(start: number) {
  let up = start;
  let down = start;
  return {
    add(one: number, other: number) {
      up += Math.max(0, one, other) ** 2;
      down += Math.min(0, one, other) ** 2;
    },
    up: () => 2 * Math.sqrt(up),
    down: () => 2 * Math.sqrt(down),
  };
}
