import { isBlank, type Block, type Cell } from "../cell";
import { meterFromCells } from "../judgement/meter-from-cells";
import { entryOf } from "../readings/catalogue";
import { parseChoice, parseQuantity } from "../readings/parse";
import type { ChoiceEntry, Measured } from "../readings/types";
import { fail, ok, type Result } from "../result";
import { PHASE_NAMES, ROWS, type BridgeKind, type DiodeBlock, type DiodeCheck, type Row } from "./types";
import { ROW_WORDS } from "./whole-block";

/**
 * How diode checks stand in cells: each as its own block of four rows, blocks below each other, or
 * each in one row, the four rows of the block side by side.
 */
export interface DiodeLayout {
  readonly stands: "in blocks" | "in rows";
  readonly phases: 2 | 3;
  /** Cells of each check, row by row of its block. */
  readonly parts: readonly (readonly Cell[])[];
}

/**
 * Finds the diode checks in a range.
 *
 * @param range - 4 × 3 cells (4 × 2 for single phase), several such blocks below each other, or a
 *   part a row with 12 (8) cells
 * @param what - Name of the argument, for the message
 */
export function diodeLayout(range: Block, what: string): Result<DiodeLayout> {
  const width = range[0]?.length ?? 0;
  if ((width === 3 || width === 2) && range.length % 4 === 0) {
    const parts = Array.from({ length: range.length / 4 }, (_, k) => range.slice(4 * k, 4 * k + 4).flat());
    return ok({ stands: "in blocks", phases: width, parts });
  }
  if (width === 12 || width === 8) return ok({ stands: "in rows", phases: width === 12 ? 3 : 2, parts: range });
  return fail({
    code: "shape",
    what,
    came: `a range of ${range.length} × ${width} cells`,
    expected: "4 rows (upper forward, lower forward, upper reverse, lower reverse) × 3 phases, or × 2 for single phase",
  });
}

/** Reads the cells of one diode check; the first that cannot be read is named by row and phase. */
export function diodeBlock(cells: readonly Cell[], phases: number): Result<DiodeBlock> {
  const read: Record<Row, (Measured | null)[]> = {
    upperForward: [],
    lowerForward: [],
    upperReverse: [],
    lowerReverse: [],
  };
  for (const [i, cell] of cells.entries()) {
    const row = ROWS[Math.floor(i / phases)]!;
    const what = `${ROW_WORDS[row]} ${PHASE_NAMES[i % phases]}`;
    const parsed = parseQuantity(cell, { what, unit: "V", min: 0, max: 4, overload: true });
    if (!parsed.ok) return parsed;
    read[row].push(parsed.value);
  }
  return ok(read);
}

/** Known-good parts of a range; a part of which nothing was read does not count. */
export function knownGoodBlocks(range: Block, phases: number): Result<readonly DiodeBlock[]> {
  if (range.every((row) => row.every(isBlank))) return ok([]);
  const layout = diodeLayout(range, "known-good parts");
  if (!layout.ok) return layout;
  if (layout.value.phases !== phases) {
    return fail({
      code: "shape",
      what: "known-good parts",
      came: `${layout.value.phases} phases`,
      expected: `${phases} phases as in the block`,
    });
  }
  const blocks: DiodeBlock[] = [];
  for (const cells of layout.value.parts) {
    if (cells.every(isBlank)) continue;
    const block = diodeBlock(cells, phases);
    if (!block.ok) return block;
    blocks.push(block.value);
  }
  return ok(blocks);
}

const KINDS = (entryOf("bridge-kind") as ChoiceEntry).choices;

export function bridgeKind(cell: Cell): Result<BridgeKind> {
  const word = parseChoice(cell, "kind", KINDS);
  return word.ok ? ok((word.value ?? "unknown") as BridgeKind) : word;
}

/** What the readings were taken with and at, the same for all parts of a call. */
export type Conditions = Pick<DiodeCheck, "meter" | "temperature" | "testCurrent">;

export function conditions(meter: Block, temperature: Cell, testCurrent: Cell): Result<Conditions> {
  const own = meterFromCells(meter);
  if (!own.ok) return own;
  const degrees = parseQuantity(temperature, { what: "temperature", unit: "°C", min: -40, max: 150 });
  if (!degrees.ok) return degrees;
  const milliamps = parseQuantity(testCurrent, { what: "test current", unit: "mA", min: 0.01, max: 20 });
  if (!milliamps.ok) return milliamps;
  return ok({
    meter: own.value,
    ...(degrees.value?.kind === "number" ? { temperature: degrees.value.value } : {}),
    ...(milliamps.value?.kind === "number" ? { testCurrent: milliamps.value.value } : {}),
  });
}
