import type { Job } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import { systemFromMachine } from "./machine-from-job";
import { operatingPoint } from "./operating-point";

/** What loads the parts of a healthy machine, likely values. */
export interface ExpectedHeat {
  /** Heat in the regulator-rectifier and in the windings [W]. */
  readonly regulatorWatts: number;
  readonly statorWatts: number;
  /** Share of time in which the regulator holds the output back [1]. */
  readonly heldBack: number;
  /** Out of the rectifier, mean, and in one phase lead, rms [A]. */
  readonly rectifierAmps: number;
  readonly phaseAmps: number;
  /** Between two lines at the stator plug, plugged in and running, rms [V]. */
  readonly loadedVolts: number;
  /** Drop of the B+ run and of the ground run [V]. */
  readonly bplusDropVolts: number;
  readonly groundDropVolts: number;
}

/**
 * Heat in regulator and stator of a healthy machine, and the currents and voltages that go with it.
 * Phases are told as their rms mean: a regulator that chops loads them by turns.
 *
 * @param job - Machine data by catalogue id
 * @param rpm - Engine speed [rpm], 0 to 20000
 * @param loadAmps - Load at 13.5 V [A]; the machine's own where left out
 * @returns The expectation; faults of `systemFromMachine` and `operatingPoint`
 * @source computed: the circuit, its heat from the balance of emf, terminals and output
 */
export function expectedHeat(job: Job, rpm: number, loadAmps?: number): Result<ExpectedHeat> {
  return andThen(systemFromMachine(job), ({ system, at }) =>
    andThen(operatingPoint(system, at(rpm, loadAmps), { ripple: false }), (point) => {
      const { kind } = system.alternator;
      const lines = kind === "three-phase" || kind === "field-excited" ? 3 : 1;
      const together = (values: readonly number[]) => Math.hypot(...values.slice(0, lines)) / Math.sqrt(lines);
      return ok({
        regulatorWatts: point.regulatorWatts,
        statorWatts: point.statorWatts,
        heldBack: point.regulatorDuty,
        rectifierAmps: point.rectifierAmps,
        phaseAmps: together(point.phaseAmpsRms),
        loadedVolts: together(point.lineVoltsRms),
        bplusDropVolts: point.bplusDropVolts,
        groundDropVolts: point.groundDropVolts,
      });
    }),
  );
}
