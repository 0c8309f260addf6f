import { nextChecks, type NextCheck } from "../core/diagnosis/next-check";
import { explain, type Explained } from "../core/diagnosis/why";
import { ruleAt, GUARDED, type DecisionRule } from "../core/judgement/conformance";
import type { Judged, Limit } from "../core/judgement/types";
import { TYPICAL_HANDHELD, type Meter } from "../core/judgement/meter";
import { CONDITIONS } from "../core/limits/conditions";
import { judgeJob, judgeReading } from "../core/limits/judge-reading";
import { entryOf, isReading } from "../core/readings/catalogue";
import type { Job, Measured } from "../core/readings/types";
import type { OwnMeter, OwnMeterFunction, RuleName } from "./settings";

/** All that the pane says of a job. */
export interface Assessment {
  /** Missing while not a single reading was taken. */
  readonly explained: Explained | undefined;
  /** Best first, also before the first reading. */
  readonly nextChecks: readonly NextCheck[];
  readonly judged: ReadonlyMap<string, Judged>;
}

export interface AssessOptions {
  /** Known-good parts of the number on this machine. */
  readonly knownGood: readonly Job[];
  readonly rule: RuleName;
  readonly meter: OwnMeter;
}

const RULES: Readonly<Record<RuleName, DecisionRule>> = {
  guarded: GUARDED,
  strict: ruleAt(0.99),
  simple: ruleAt(0.5),
};

export function assess(job: Job, options: AssessOptions): Assessment {
  const explained = explain(job, options);
  return {
    explained,
    nextChecks: explained?.nextChecks ?? nextChecks(job, options),
    judged: judgeAll(job, options),
  };
}

/**
 * Every reading of a job against its limit. Conditions of a reading (speed, temperature, time) have
 * no limit of their own and are left out.
 */
export function judgeAll(job: Job, options: AssessOptions): ReadonlyMap<string, Judged> {
  return new Map([...judgeJob(job, limitOptions(options))].filter(([id, judged]) => hasLimit(id, judged)));
}

/** How one reading would be judged in this job if it were `measured`. */
export function previewOf(job: Job, id: string, measured: Measured, options: AssessOptions): Judged | undefined {
  if (!isJudged(id)) return undefined;
  const judged = judgeReading(id, new Map([...job, [id, measured]]), limitOptions(options));
  return hasLimit(id, judged) ? judged : undefined;
}

/** The limit that a reading not yet taken will be held against, where it does not depend on the reading. */
export function expectedLimit(job: Job, id: string, options: AssessOptions): Limit | undefined {
  const entry = entryOf(id);
  if (!isJudged(id) || entry?.kind !== "quantity") return undefined;
  const [low, high] = [entry.min, entry.max].map(
    (value) => previewOf(job, id, { kind: "number", value }, options)?.limit,
  );
  return low && high && low.low === high.low && low.high === high.high ? low : undefined;
}

function isJudged(id: string): boolean {
  const entry = entryOf(id);
  return entry?.kind === "quantity" && isReading(entry);
}

function hasLimit(id: string, judged: Judged): boolean {
  return judged.limit !== undefined || !CONDITIONS.has(id);
}

/** The user's settings as readings are judged by them. */
export function limitOptions({ knownGood, rule, meter }: AssessOptions) {
  return { rule: RULES[rule], meter: meterOf(meter), ...(knownGood.length > 0 ? { knownGood } : {}) };
}

/** The typical meter with the shop's own accuracy where it gave one; ranges and steps stay the typical ones. */
export function meterOf(own: OwnMeter): Meter {
  if (Object.keys(own).length === 0) return TYPICAL_HANDHELD;
  return {
    name: "own meter",
    ranges: TYPICAL_HANDHELD.ranges.map((range) => ({ ...range, ...own[range.of as OwnMeterFunction] })),
  };
}
