import type { Job } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import type { Range3 } from "./expected-running";
import { systemFromMachine } from "./machine-from-job";
import { operatingPoint } from "./operating-point";

/** What a healthy machine's ripple at the battery looks like, and where a broken device would show. */
export interface ExpectedRipple {
  /** AC at the posts [V rms]. */
  readonly volts: Range3;
  /** Strongest line of the healthy machine [Hz]. */
  readonly mainHertz: number;
  /** Electrical frequency [Hz]: a strong line here means one device open or one phase weak. */
  readonly phaseHertz: number;
  /** Six times that: the healthy bridge's own line. */
  readonly bridgeHertz: number;
  readonly regulatorWorks: boolean;
}

/** Real cables have inductance and meters differ in bandwidth: levels are told to a factor only. */
const LEVEL_FACTOR = 2;

/**
 * Ripple of a healthy machine: level and main frequency.
 *
 * @param job - Machine data by catalogue id
 * @param rpm - Engine speed [rpm], above 0
 * @param loadAmps - Load at 13.5 V [A]; the machine's own where left out
 * @returns The expectation; faults of `operatingPoint`
 * @source common-practice (spreads), computed by the circuit in time
 */
export function expectedRipple(job: Job, rpm: number, loadAmps?: number): Result<ExpectedRipple> {
  return andThen(systemFromMachine(job), (machine) =>
    andThen(operatingPoint(machine.system, machine.at(rpm, loadAmps), { model: "time-stepped" }), (point) => {
      const single =
        machine.system.alternator.kind === "single-phase full-wave" ||
        machine.system.alternator.kind === "single-phase half-wave";
      return ok({
        volts: {
          low: point.rippleVoltsRms / LEVEL_FACTOR,
          likely: point.rippleVoltsRms,
          high: point.rippleVoltsRms * LEVEL_FACTOR,
        },
        mainHertz: point.rippleLines[0]?.hertz ?? 0,
        phaseHertz: point.hertz,
        bridgeHertz: (single ? 2 : 6) * point.hertz,
        regulatorWorks: point.regulatorDuty > 0,
      });
    }),
  );
}
