import { expectedRunning, type ExpectedRunning } from "../circuit/expected-running";
import type { Limit } from "../judgement/types";
import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";

/** What a healthy machine of the job's data shows at a speed; `undefined` where the data are too few. */
export type Expectation = (rpm: number) => ExpectedRunning | undefined;

/**
 * Solves the job's machine once for each speed. Without its rating or its no-load output a machine
 * is any machine, and nothing is expected of it.
 */
export function expectationOf(job: Job): Expectation {
  const known = () =>
    isKnown(job, "rated-output", "rated-output-rpm") || isKnown(job, "no-load-nominal", "no-load-nominal-rpm");
  const solved = new Map<number, ExpectedRunning | undefined>();
  return (rpm) => {
    if (!solved.has(rpm)) {
      const running = known() ? expectedRunning(job, rpm) : undefined;
      solved.set(rpm, running?.ok ? running.value : undefined);
    }
    return solved.get(rpm);
  };
}

function isKnown(job: Job, ...ids: readonly string[]): boolean {
  return ids.every((id) => numberIn(job, id) !== undefined);
}

/**
 * A band of running voltage with its lower end where a healthy machine can be at this speed and load:
 * 13.1 V at idle is no fault where physics foretells it.
 */
export function withinReach(
  band: Limit | undefined,
  job: Job,
  speed: string,
  expected: Expectation,
): Limit | undefined {
  const rpm = numberIn(job, speed);
  const running = band && rpm !== undefined ? expected(rpm) : undefined;
  if (!band || !running || (band.low !== undefined && running.volts.low >= band.low)) return band;
  const { low: lowest } = running.volts;
  const { lenient, ...rest } = band;
  return {
    ...rest,
    low: lowest,
    ...(lenient ? { lenient: { ...lenient, low: Math.min(lowest, lenient.low ?? lowest) } } : {}),
    origin: {
      from: "computed",
      words: `${band.origin.words}; lower end from what a healthy machine of these data makes at ${Math.round(rpm!)} rpm`,
    },
  };
}
