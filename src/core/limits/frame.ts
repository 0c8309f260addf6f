import type { BatteryType, NominalVolts } from "../battery/types";
import { GUARDED, type DecisionRule } from "../judgement/conformance";
import type { JudgeOptions } from "../judgement/judge";
import { TYPICAL_HANDHELD, withOhmStep, type Meter } from "../judgement/meter";
import { choiceIn, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { expectationOf, type Expectation } from "./expectation";

export interface LimitOptions {
  /** The shop's own meter; a typical hand-held one where left out. */
  readonly meter?: Meter;
  /** From which chance on a reading passes and fails; guarded at 95 and 5 % where left out. */
  readonly rule?: DecisionRule;
  /** Jobs of known-good parts or machines of the same number. */
  readonly knownGood?: readonly Job[];
  /** Allowed spread between the cells of a battery; the strict 0.025 where left out. */
  readonly gravitySpread?: number;
  /** What is expected of the running machine, where many readings of one machine are judged. */
  readonly expected?: Expectation;
}

/** A job with all that its limits depend on. */
export interface Frame {
  readonly job: Job;
  readonly judging: Required<Pick<JudgeOptions, "meter" | "rule">>;
  readonly knownGood: readonly Job[];
  readonly gravitySpread: number | undefined;
  /** Battery type; `undefined` where nobody said. */
  readonly type: BatteryType | undefined;
  /** Nominal voltage, 12 V where nobody said. */
  readonly nominal: NominalVolts;
  readonly nominalKnown: boolean;
  /** Of a limit for 12 V systems [1]. */
  readonly scale: number;
  /** Most that the alternator can deliver [A], from its rated output. */
  readonly ratedAmps: number | undefined;
  readonly expected: Expectation;
}

export function frameOf(
  job: Job,
  { meter = TYPICAL_HANDHELD, rule = GUARDED, knownGood = [], gravitySpread, expected }: LimitOptions,
): Frame {
  const nominal = () => numberIn(job, "battery-nominal");
  const volts = () => ((nominal() ?? 12) < 9 ? 6 : 12);
  let judging: Frame["judging"] | undefined;
  // Looked up when it is asked for: a limit asks the job for nothing that it does not depend on.
  return {
    job,
    get judging() {
      return (judging ??= { meter: withOhmStep(meter, numberIn(job, "meter-ohm-step")), rule });
    },
    knownGood,
    gravitySpread,
    get type() {
      return choiceIn(job, "battery-type") as BatteryType | undefined;
    },
    get nominal() {
      return volts();
    },
    get nominalKnown() {
      return nominal() !== undefined;
    },
    get scale() {
      return volts() / 12;
    },
    get ratedAmps() {
      const watts = numberIn(job, "rated-output");
      return watts === undefined ? undefined : watts / (14 * (volts() / 12));
    },
    expected: expected ?? expectationOf(job),
  };
}
