import type { BatteryType } from "../battery/types";
import type { Block, Cell } from "../cell";
import { judgeNumber } from "../judgement/judge";
import { quantityById } from "../readings/catalogue";
import { jobFromCells } from "../readings/from-cells";
import type { Job, Measured } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { chargingBand } from "./charging-band";
import { expectedHeat } from "./expected-heat";
import { expectedOf, type Range3 } from "./expected-running";
import { expectedRipple } from "./expected-ripple";
import { filledFromReadings } from "./own-readings";
import { breakEven, curveWith } from "./machine-curve";
import { systemFromMachine } from "./machine-from-job";
import { runningVoltage } from "./running-voltage";

/** Answers of this room as cells, side by side; what the worksheet functions hand out. */
type Cells = Result<readonly Cell[]>;

/** Machine data from a range; an absent range is an empty job, the first unreadable cell a fault. */
export function machineFromCells(block: Block): Result<Job> {
  return andThen(jobFromCells(block), ({ job, issues }) => {
    const bad = issues.find((issue) => issue.fault !== undefined);
    return bad?.fault ? fail(bad.fault) : ok(job);
  });
}

/** Machine data that must be there; the machine's own sound readings among them fill what the plate leaves out. */
export function neededMachine(block: Block): Result<Job> {
  return andThen(machineFromCells(block), (job) =>
    job.size === 0
      ? fail({
          code: "missing",
          what: "machine",
          expected: "machine data: two columns (label, value), or a header row and one row",
        })
      : ok(filledFromReadings(job)),
  );
}

const three = ({ low, likely, high }: Range3): readonly Cell[] => [low, likely, high];

export function bandCells(
  job: Job,
  type: BatteryType,
  temperature: number | undefined,
  rpm: number | undefined,
  loadAmps: number | undefined,
): Cells {
  return andThen(
    chargingBand({ type, temperature, job: job.size === 0 ? undefined : job, rpm, loadAmps }),
    ({ volts }) => ok(three(volts)),
  );
}

/** Volts, battery amps, low and high volts, what limits. */
export function outputWith(job: Job): Result<(rpm: number, loadAmps: number | undefined) => Cells> {
  return andThen(systemFromMachine(job), (machine) =>
    ok((rpm: number, loadAmps: number | undefined) =>
      andThen(expectedOf(machine, rpm, loadAmps), ({ volts, amps, limitedBy }) =>
        ok([volts.likely, amps.likely, volts.low, volts.high, limitedBy]),
      ),
    ),
  );
}

/** Speed, low, likely and high volts, battery amps. */
export function curveCells(job: Job, loadAmps: number | undefined): Result<(rpm: number) => Cells> {
  return andThen(curveWith(job, loadAmps), (at) =>
    ok((rpm: number) => andThen(at(rpm), ({ volts, amps }) => ok([rpm, ...three(volts), amps]))),
  );
}

export function breakEvenCells(job: Job, loadAmps: number | undefined): Cells {
  return andThen(breakEven(job, loadAmps), (speeds) => ok(three(speeds)));
}

/** State, rise over rest, states at idle and test speed, reason. */
export function runningCells(
  job: Job,
  rest: Measured | undefined,
  idle: Measured | undefined,
  test: Measured | undefined,
  type: BatteryType,
  temperature: number | undefined,
  idleRpm: number | undefined,
  testRpm: number | undefined,
  loadAmps: number | undefined,
): Cells {
  return andThen(runningVoltage({ rest, idle, test, idleRpm, testRpm, loadAmps }, type, temperature, job), (verdict) =>
    ok([verdict.state, verdict.riseVolts ?? "", verdict.idle.state, verdict.test.state, verdict.reason]),
  );
}

/** Regulator and stator heat, share held back, rectifier and phase amps, AC under load, drops of both runs. */
export function heatCells(job: Job, rpm: number, loadAmps: number | undefined): Cells {
  return andThen(expectedHeat(job, rpm, loadAmps), (heat) =>
    ok([
      heat.regulatorWatts,
      heat.statorWatts,
      heat.heldBack,
      heat.rectifierAmps,
      heat.phaseAmps,
      heat.loadedVolts,
      heat.bplusDropVolts,
      heat.groundDropVolts,
    ]),
  );
}

/** Low, likely and high ripple, its main frequency, the frequency at which a broken device shows, state, reason. */
export function rippleCells(job: Job, rpm: number, loadAmps: number | undefined, reading: number | undefined): Cells {
  return andThen(expectedRipple(job, rpm, loadAmps), (ripple) => {
    const judged =
      reading === undefined
        ? { state: "not read", reason: "Not read." }
        : judgeNumber(quantityById("battery-ripple"), reading, 0.02 * reading + 0.005, {
            high: ripple.volts.high,
            // A level alone condemns nothing.
            lenient: {},
            origin: {
              from: "computed",
              words: ripple.regulatorWorks
                ? "healthy machine of these data with its regulator at work"
                : "healthy machine of these data",
            },
          });
    return ok([...three(ripple.volts), ripple.mainHertz, ripple.phaseHertz, judged.state, judged.reason]);
  });
}
