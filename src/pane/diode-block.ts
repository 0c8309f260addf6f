import { choiceIn } from "../core/readings/catalogue";
import { PHASES } from "../core/readings/entries";
import type { Job } from "../core/readings/types";
import { judgeDiodes } from "../core/rectifier/diodes";
import { BRIDGE_KINDS, type DiodeBlock, type DiodesJudged, type DiodeState, type Row } from "../core/rectifier/types";
import type { Phase } from "./drawings/placements";

/** Rows of a diode check by the first part of their catalogue ids, in the order of the work. */
export const DIODE_ROWS = ["upper-forward", "upper-reverse", "lower-forward", "lower-reverse"] as const;
export type DiodeRow = (typeof DIODE_ROWS)[number];

export const BLOCK_ROW: Readonly<Record<DiodeRow, Row>> = {
  "upper-forward": "upperForward",
  "upper-reverse": "upperReverse",
  "lower-forward": "lowerForward",
  "lower-reverse": "lowerReverse",
};

/** The diode check of a job as the block in which it is judged. */
export function blockOf(job: Job, phases: readonly Phase[] = PHASES): DiodeBlock {
  const line = (row: DiodeRow) => phases.map((phase) => job.get(`${row}-${phase}`) ?? null);
  return {
    upperForward: line("upper-forward"),
    lowerForward: line("lower-forward"),
    upperReverse: line("upper-reverse"),
    lowerReverse: line("lower-reverse"),
  };
}

/** What the diode check of a job shows; `undefined` while nothing of it was read. */
export function judgedDiodes(job: Job, phases: readonly Phase[], knownGood: readonly Job[]): DiodesJudged | undefined {
  const block = blockOf(job, phases);
  if (Object.values(block).every((line) => line.every((cell) => cell === null))) return undefined;
  const kind = BRIDGE_KINDS.find((known) => known === choiceIn(job, "bridge-kind"));
  return judgeDiodes({
    ...block,
    ...(kind ? { kind } : {}),
    ...(knownGood.length > 0 ? { knownGood: knownGood.map((part) => blockOf(part, phases)) } : {}),
  });
}

/** The telling one of a device's two readings. */
export function deviceWord(forward: DiodeState, reverse: DiodeState): DiodeState {
  const rank: readonly DiodeState[] = [
    "short",
    "open",
    "odd one out",
    "parallel path",
    "not read",
    "conducts",
    "blocks",
  ];
  return rank.find((state) => state === forward || state === reverse) ?? "not read";
}
