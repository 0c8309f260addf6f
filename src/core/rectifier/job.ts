import type { Meter } from "../judgement/meter";
import type { PartState } from "../judgement/types";
import { choiceIn } from "../readings/catalogue";
import { PHASES } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { judgeDiodes } from "./diodes";
import { judgeCaseLeakage, judgeOutputShort, type PartCheck } from "./output-short";
import { BRIDGE_KINDS, type BridgeKind, type DiodeBlock, type DiodesJudged, type Row } from "./types";

/** Catalogue ids of the rows, before the phase. */
export const ROW_IDS: Readonly<Record<Row, string>> = {
  upperForward: "upper-forward",
  lowerForward: "lower-forward",
  upperReverse: "upper-reverse",
  lowerReverse: "lower-reverse",
};

/** The diode check of a job as a block: two columns for a single-phase machine, else three. */
export function diodeBlockOf(job: Job): DiodeBlock {
  const kind = choiceIn(job, "alternator-kind");
  const phases = kind === "single-phase" || kind === "half-wave" ? PHASES.slice(0, 2) : PHASES;
  const row = (name: Row): (Measured | null)[] => phases.map((phase) => job.get(`${ROW_IDS[name]}-${phase}`) ?? null);
  return {
    upperForward: row("upperForward"),
    lowerForward: row("lowerForward"),
    upperReverse: row("upperReverse"),
    lowerReverse: row("lowerReverse"),
  };
}

/** What is known of the regulator-rectifier from the checks of the unplugged unit. */
export interface RectifierJudged extends PartCheck {
  readonly diodes: DiodesJudged;
  readonly outputShort: PartCheck;
  readonly caseLeakage: PartCheck;
}

export interface RectifierOptions {
  /** Jobs that hold the readings of good parts of the same number. */
  readonly knownGood?: readonly Job[];
  readonly meter?: Meter;
  /** Temperature of the unit when it was read [°C]. */
  readonly temperature?: number;
  /** Test current of the meter's diode check [mA]. */
  readonly testCurrent?: number;
}

/**
 * Judges the unplugged regulator-rectifier of a job: diode check, B+ to ground, terminals to case.
 * The worst of the three counts; the two small checks alone never make it serviceable.
 */
export function judgeRectifier(job: Job, { knownGood = [], ...options }: RectifierOptions = {}): RectifierJudged {
  const kind = bridgeKindOf(job);
  const diodes = judgeDiodes({ ...diodeBlockOf(job), kind, knownGood: knownGood.map(diodeBlockOf), ...options });
  const outputShort = judgeOutputShort(
    job.get("output-to-ground") ?? null,
    job.get("output-to-ground-swapped") ?? null,
    options.meter,
  );
  const caseLeakage = judgeCaseLeakage(job.get("case-leakage") ?? null);
  const taken = [
    diodes,
    ...(wasRead(job, "output-to-ground", "output-to-ground-swapped") ? [outputShort] : []),
    ...(wasRead(job, "case-leakage") ? [caseLeakage] : []),
  ];
  const worst = [...taken].sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state))[0]!;
  return { state: worst.state, reason: worst.reason, next: worst.next, diodes, outputShort, caseLeakage };
}

const ORDER: readonly PartState[] = ["faulty", "suspect", "unproven", "serviceable"];

function wasRead(job: Job, ...ids: readonly string[]): boolean {
  return ids.some((id) => job.has(id));
}

/** The circuit inside, as the job says; `unknown` where it does not. */
export function bridgeKindOf(job: Job): BridgeKind {
  const word = choiceIn(job, "bridge-kind");
  return BRIDGE_KINDS.find((kind) => kind === word) ?? "unknown";
}

/** True where at least one reading of the diode check was taken. */
export function diodeCheckTaken(job: Job): boolean {
  return DIODE_IDS.some((id) => job.has(id));
}
const DIODE_IDS = Object.values(ROW_IDS).flatMap((row) => PHASES.map((phase) => `${row}-${phase}`));
