import type { FaultId } from "../../core/diagnosis/faults";
import { operatingPoint } from "./operating-point";
import { drawMachine, type Machine, type MachineRanges } from "./machine";
import { noLoadVolts } from "./no-load";
import { specimen, type Specimen } from "./faulty-system";
import { NEEDS_REGULATOR } from "./put-in-faults";
import { drawSpeeds, plate, readAll, type Runs, type Values } from "./readings";
import { Random } from "./random";

/** One simulated job with every check taken; skipping comes later. */
export interface SimulatedJob {
  readonly faults: readonly FaultId[];
  readonly variant: string;
  readonly regulator: "shunt" | "series";
  readonly values: Values;
}

/** Draws a machine that can have the faults, solves it at idle and at test speed, and reads it. */
export function simulateOne(
  faults: readonly FaultId[],
  ranges: MachineRanges,
  seed: number,
  wholePlate: boolean,
): SimulatedJob {
  const random = new Random(seed);
  for (;;) {
    const made = specimen(machineFor(faults, ranges, random), faults, random);
    const speeds = drawSpeeds(made, random);
    const runs = solve(made, speeds);
    if (!runs) continue;
    const platePart = plate(made, random, wholePlate);
    return {
      faults,
      variant: made.variant,
      regulator: made.machine.regulator,
      values: { ...platePart, ...readAll(made, runs, random) },
    };
  }
}

function machineFor(faults: readonly FaultId[], ranges: MachineRanges, random: Random): Machine {
  for (;;) {
    const machine = drawMachine(random, ranges);
    if (faults.every((f) => (NEEDS_REGULATOR[f] ?? machine.regulator) === machine.regulator)) return machine;
  }
}

function solve(made: Specimen, speeds: { idle: number; test: number; noLoad: number }): Runs | undefined {
  const { machine } = made;
  const at = (rpm: number) => ({
    rpm,
    loadAmps: made.loadAmps,
    statorCelsius: machine.statorRun,
    regulatorCelsius: machine.bridgeRun,
  });
  const idle = operatingPoint(made.system, at(speeds.idle));
  const test = operatingPoint(made.hotSystem, at(speeds.test));
  if (!idle || !test || [idle, test].some((point) => blowsItsFuse(point.batteryAmps, machine))) return undefined;
  return { idle, test, noLoad: noLoadVolts(made, speeds.noLoad) };
}

/** A shorted upper device and a fired shunt device short the battery: that machine does not come in running. */
function blowsItsFuse(batteryAmps: number, machine: Machine): boolean {
  return batteryAmps < -(2.2 * machine.ratedWatts) / 14 - 10;
}
