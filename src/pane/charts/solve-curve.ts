import { breakEven, machineCurve } from "../../core/circuit/machine-curve";
import { systemFromMachine } from "../../core/circuit/machine-from-job";
import type { Job } from "../../core/readings/types";

/** Points of the drawn curve; between them it is straight. */
const POINTS = 18;

export interface Curve {
  readonly points: ReturnType<typeof machineCurve>;
  readonly assumed: readonly string[];
  readonly balance: ReturnType<typeof breakEven>;
}

/** Solves the machine's curve between two speeds, and the speed from which on its battery gains. */
export function solveCurve(job: Job, slowest: number, fastest: number): Curve {
  // Even steps of ratio: the curve bends where it is slow.
  const speeds = Array.from({ length: POINTS }, (_, i) => slowest * (fastest / slowest) ** (i / (POINTS - 1)));
  const machine = systemFromMachine(job);
  return {
    points: machineCurve(job, speeds),
    assumed: machine.ok ? machine.value.assumed : [],
    balance: breakEven(job),
  };
}
