import type { FaultId } from "../../core/diagnosis/faults";
import { operatingPoint } from "../simulation/operating-point";
import { restVolts } from "../simulation/battery-state";
import { specimen, type Specimen } from "../simulation/faulty-system";
import { COMMON, drawMachine, type Machine } from "../simulation/machine";
import type { Random } from "../simulation/random";
import { cranking } from "../simulation/readings";

/** What a machine shows on one day, before any meter has read it. */
export interface TrueState {
  readonly celsius: number;
  readonly rested: number;
  readonly cranking: number;
  readonly idle: number;
  readonly test: number;
  readonly draw: number;
}

/** A charging fault from one visit to another. */
export interface Trouble {
  readonly fault: FaultId;
  readonly from: number;
  readonly repaired: number;
}

interface Solved {
  readonly made: Specimen;
  /** Running voltages at two rested voltages: between them they lie on a straight line. */
  readonly at: readonly { readonly ocv: number; readonly idle: number; readonly test: number }[];
}

/** Faults that come and are mended in a fleet's day, and that need no particular machine. */
export const TROUBLES = [
  "parasitic-drain",
  "excessive-load",
  "regulator-overcharge",
  "stator-phase-open",
  "high-resistance-ground",
  "high-resistance-bplus",
] as const satisfies readonly FaultId[];

/**
 * One machine over the years: its circuit is solved once for each state that it is in, and read at
 * every visit with the charge, the season and the age of its battery on that day.
 */
export class MachineLife {
  readonly machine: Machine;
  private readonly solved = new Map<FaultId, Solved>();

  constructor(private readonly random: Random) {
    this.machine = drawMachine(random, COMMON);
  }

  /**
   * @param wear - Resistance of the battery over that of a new one, 1 and up
   * @param charge - State of charge as it comes in [1]
   * @param celsius - Of the battery that day
   */
  stateOn(fault: FaultId, wear: number, charge: number, celsius: number): TrueState | undefined {
    const known = this.solved.get(fault) ?? this.solve(fault);
    if (!known) return undefined;
    this.solved.set(fault, known);
    const { made, at } = known;
    const type = this.machine.batteryType;
    const rested = restVolts(type, charge);
    const between = (pick: (point: Solved["at"][number]) => number) => {
      const [low, high] = [at[0]!, at[1]!];
      const share = Math.min(1, Math.max(0, (rested - low.ocv) / (high.ocv - low.ocv)));
      return pick(low) + share * (pick(high) - pick(low));
    };
    const cold = Math.max(0.7, 1 + 0.008 * (25 - celsius));
    const ohms = this.machine.batteryOhms * wear * cold * (1 + 0.5 * (1 - charge));
    const battery = { ...made.system.battery, ocvVolts: rested, ohms };
    return {
      celsius,
      rested,
      cranking: cranking({ ...made, system: { ...made.system, battery } }, this.random),
      idle: between((point) => point.idle),
      test: between((point) => point.test),
      draw: made.drawMilliamps,
    };
  }

  private solve(fault: FaultId): Solved | undefined {
    const { machine } = this;
    const made = specimen(machine, [fault], this.random);
    const at = [0.5, 0.97].map((charge) => {
      const ocv = restVolts(machine.batteryType, charge);
      const system = { ...made.system, battery: { ...made.system.battery, ocvVolts: ocv } };
      const running = (rpm: number) =>
        operatingPoint(system, {
          rpm,
          loadAmps: made.loadAmps,
          statorCelsius: machine.statorRun,
          regulatorCelsius: machine.bridgeRun,
        })?.batteryVolts;
      return { ocv, idle: running(machine.idleRpm), test: running(machine.testRpm) };
    });
    const whole = at.flatMap(({ ocv, idle, test }) =>
      idle === undefined || test === undefined ? [] : [{ ocv, idle, test }],
    );
    return whole.length === 2 ? { made, at: whole } : undefined;
  }
}
