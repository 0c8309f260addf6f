import { judge, NOT_READ, unsure } from "../judgement/judge";
import { rangeFor, readingUncertainty } from "../judgement/meter";
import type { Judged, Limit } from "../judgement/types";
import { numberIn, quantityById } from "../readings/catalogue";
import { PAIRS, PHASES } from "../readings/entries";
import type { Job } from "../readings/types";
import { knownGood } from "../rectifier/known-good";
import type { Balance } from "../stator/balance";
import { judgeGround, type GroundJudged } from "../stator/ground";
import { judgeInsulation } from "../stator/insulation";
import { judgeNoLoadAc, type NoLoadJudged } from "../stator/no-load-ac";
import { judgeWindingOhms, windingLimit, type WindingOhmsJudged } from "../stator/winding-ohms";
import type { Frame } from "./frame";
import { forEach, onceEach, type Room } from "./room";

/** The stator of a job, judged once for all its readings. */
interface StatorView {
  readonly ohms: WindingOhmsJudged;
  readonly ac: NoLoadJudged;
  readonly ground: GroundJudged;
  /** From good stators of the same number, where the machine's own figure is not known. */
  readonly ohmsLimit: Limit | undefined;
  /** For the first and the second speed. */
  readonly acLimits: readonly [Limit | undefined, Limit | undefined];
}

function statorView(frame: Frame): StatorView {
  const { job, judging } = frame;
  const acLimit = (speed: string) => (hasFigure(job, "no-load-nominal") ? undefined : goodOutput(frame, speed));
  return {
    ohms: judgeWindingOhms(job, judging),
    ac: judgeNoLoadAc(job, judging),
    ground: judgeGround(job, judging),
    ohmsLimit: hasFigure(job, "stator-ohms-min") || hasFigure(job, "stator-ohms-max") ? undefined : goodWinding(frame),
    acLimits: [acLimit("no-load-rpm"), acLimit("no-load-rpm-2")],
  };
}

const hasFigure = (job: Job, id: string) => numberIn(job, id) !== undefined;

/** Good stators differ by this while fewer than three were read [1]. @source common-practice */
const SPREAD = { ohms: 0.1, output: 0.1 } as const;

/** Line resistance of good stators at 20 °C, as this meter should show it at this temperature. */
function goodWinding({ job, judging, knownGood: parts }: Frame): Limit | undefined {
  const lines = parts.flatMap((part) => {
    const ohms = judgeWindingOhms(part, judging).atReference.filter((line): line is number => typeof line === "number");
    return ohms.length === 0 ? [] : [mean(ohms)];
  });
  if (lines.length === 0) return undefined;
  const range = rangeFor(judging.meter, "ohms", Math.max(...lines));
  const u = readingUncertainty(Math.max(...lines), range);
  const interval = knownGood(lines, { meter: 2 * u, step: range.resolution, spread: SPREAD.ohms * Math.max(...lines) });
  if (!interval.ok) return undefined;
  const { low, high, count, words } = interval.value;
  const figure = (value: number) => ({ kind: "number", value: Math.max(0, value) }) as const;
  // The machine's figure, had it been written from these stators: temperature and leads as there.
  const shown = windingLimit(
    new Map(job)
      .set("stator-ohms-min", figure(low))
      .set("stator-ohms-max", figure(high))
      .set("stator-ohms-temp", figure(20)),
    judging.meter,
  );
  return shown && { ...shown, origin: { from: "known-good parts", count, words } };
}

/** Output of good stators per 1000 rpm, at the speed of this test. */
function goodOutput({ job, judging, knownGood: parts }: Frame, speed: string): Limit | undefined {
  const rpm = numberIn(job, speed);
  const perThousand = parts.flatMap((part) => judgeNoLoadAc(part, judging).perThousand ?? []);
  if (rpm === undefined || perThousand.length === 0) return undefined;
  const volts = perThousand.map((one) => (one * rpm) / 1000);
  const largest = Math.max(...volts);
  const range = rangeFor(judging.meter, "ac volts", largest);
  // Speed is held by hand at both stators: what it leaves open belongs to the meter here.
  const speedU = (largest * readingUncertainty(rpm, rangeFor(judging.meter, "tachometer", rpm))) / rpm;
  const meter = 2 * Math.hypot(readingUncertainty(largest, range), speedU);
  const interval = knownGood(volts, { meter, step: range.resolution, spread: SPREAD.output * largest });
  if (!interval.ok) return undefined;
  const { low, high, count, words } = interval.value;
  return { low, high, origin: { from: "known-good parts", count, words: `${words}, in proportion to speed` } };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** One line-to-line resistance: its level, and whether it is the one that falls out of three. */
function judgeWinding({ job, judging }: Frame, id: string, { ohms, ohmsLimit }: StatorView): Judged {
  const own = ohms.readings.get(id);
  if (!own) return NOT_READ;
  const level = ohmsLimit ? judge(quantityById(id), job.get(id), ohmsLimit, judging) : own;
  if (job.get(id)?.kind === "overload" && ohms.state === "fail") {
    const limit: Limit = level.limit ?? {
      origin: { from: "computed", words: "a winding conducts from terminal to terminal" },
    };
    return { state: "fail", chance: 0, limit, reason: ohms.reason };
  }
  return withBalance(
    level,
    ohms.balance,
    PAIRS.findIndex((pair) => id.endsWith(pair)),
    ohms.pattern,
  );
}

/** One no-load AC reading: its level, and whether it is the one that falls out of three. */
function judgeNoLoad({ job, judging }: Frame, id: string, { ac, acLimits }: StatorView): Judged {
  const own = ac.readings.get(id);
  if (!own) return NOT_READ;
  const second = id.startsWith("no-load-2");
  const limit = acLimits[second ? 1 : 0];
  const level = limit
    ? {
        ...judge(quantityById(id), job.get(id), limit, judging),
        ...(own.customary ? { customary: own.customary } : {}),
      }
    : own;
  return second
    ? level
    : withBalance(
        level,
        ac.balance,
        PAIRS.findIndex((pair) => id.endsWith(pair)),
        ac.pattern,
      );
}

function withBalance(level: Judged, balance: Balance | undefined, at: number, pattern: string): Judged {
  if (!balance || level.state === "fail") return level;
  const { judged, worst } = balance;
  if (judged.state === "fail" && worst === at) {
    return { ...level, ...judged, reason: pattern === "" ? judged.reason : `${judged.reason} ${pattern}.` };
  }
  if (judged.state === "pass" || level.state === "pass")
    return level.limit ? level : unsure(`${level.reason.replace(/\.$/u, "")}. ${judged.reason}`, level);
  return worst === at ? unsure(judged.reason, level) : level;
}

const viewOf = onceEach(statorView);

/** Readings of the stator: windings, output, insulation. */
export const STATOR_ROOM: Room = {
  ...forEach(
    PAIRS.map((pair) => `winding-${pair}`),
    (frame, id) => judgeWinding(frame, id, viewOf(frame)),
  ),
  ...forEach(
    PAIRS.flatMap((pair) => [`no-load-${pair}`, `no-load-2-${pair}`]),
    (frame, id) => judgeNoLoad(frame, id, viewOf(frame)),
  ),
  ...forEach(
    PHASES.map((phase) => `ground-${phase}`),
    (frame, id) => viewOf(frame).ground.readings.get(id),
  ),
  insulation: ({ job, judging }) => judgeInsulation(job, judging),
};
