import { isBlank, type Block, type Cell } from "../cell";
import { andThen, fail, faultMessage, ok, type Result } from "../result";
import { judgeAgainst, standardOf, type KnownGoodStandard } from "./diodes";
import {
  bridgeKind,
  conditions,
  diodeBlock,
  diodeLayout,
  knownGoodBlocks,
  type DiodeLayout,
} from "./diodes-from-cells";
import { PHASE_NAMES, ROWS, type BridgeKind, type DiodeBlock, type DiodeCheck, type DiodesJudged } from "./types";

/** A diode check as a sheet hands it over; what is left out is one blank cell. */
export interface DiodesGiven {
  readonly block: Block;
  /** One kind for all parts, or one for each. */
  readonly kind: Block;
  readonly knownGood: Block;
  readonly meter: Block;
  readonly temperature: Cell;
  readonly testCurrent: Cell;
}

/**
 * Judges every diode check of a range.
 *
 * @returns For parts in blocks: the block of states with a row below it that holds the state of the
 *   part, the reason and what to do next (for two phases the last two share a cell). For parts in
 *   rows: the states side by side, then state, reason, next. A part that cannot be read is one
 *   sentence in each of its cells; what concerns all parts is the fault of the whole.
 */
export function diodeCells(given: DiodesGiven): Result<readonly (readonly Cell[])[]> {
  const layout = diodeLayout(given.block, "block");
  if (!layout.ok) return layout;
  const { parts, phases } = layout.value;
  const shared = conditions(given.meter, given.temperature, given.testCurrent);
  if (!shared.ok) return shared;
  const knownGood = knownGoodBlocks(given.knownGood, phases);
  if (!knownGood.ok) return knownGood;
  const kinds = given.kind.flat();
  if (kinds.length !== 1 && kinds.length !== parts.length) {
    return fail({
      code: "shape",
      what: "kind",
      came: `${kinds.length} cells`,
      expected: `one cell, or ${parts.length} like the parts`,
    });
  }
  // Known-good parts are worked out once for each kind, not once for each of 50,000 rows.
  const standards = new Map<BridgeKind, KnownGoodStandard>();
  const judge = (block: DiodeBlock, kind: BridgeKind): DiodesJudged => {
    const check: DiodeCheck = { ...block, kind, ...shared.value };
    const standard = standards.get(kind) ?? standardOf(knownGood.value, check);
    standards.set(kind, standard);
    return judgeAgainst(check, standard);
  };
  return ok(parts.flatMap((cells, i) => partCells(cells, kinds[kinds.length === 1 ? 0 : i], layout.value, judge)));
}

/** States of a part's readings, row by row of its block; then its own state, reason and next step. */
interface PartAnswer {
  readonly states: readonly Cell[];
  readonly part: readonly [state: Cell, reason: string, next: string];
}

function partCells(
  cells: readonly Cell[],
  kind: Cell,
  layout: DiodeLayout,
  judge: (block: DiodeBlock, kind: BridgeKind) => DiodesJudged,
): Cell[][] {
  const notRead: PartAnswer = { states: cells.map(() => "not read"), part: ["not read", "", ""] };
  if (cells.every(isBlank)) return place(notRead, layout);
  const answer = andThen(bridgeKind(kind), (known) =>
    andThen(diodeBlock(cells, layout.phases), (block) => {
      const { readings, state, reason, hidden, next } = doubtful(judge(block, known), cells, layout.phases);
      return ok<PartAnswer>({
        states: ROWS.flatMap((row) => readings[row]),
        part: [state, [reason, ...hidden].join(" "), next],
      });
    }),
  );
  if (answer.ok) return place(answer.value, layout);
  const error: Cell = { error: "#VALUE!", message: faultMessage(answer.fault) };
  return place(notRead, layout).map((row) => row.map(() => error));
}

/**
 * Some hosts hand a blank cell on as 0. A phase that stands as 0 in all four rows is shorted in both
 * banks, or was never read: on that alone no part is called faulty.
 */
function doubtful(judged: DiodesJudged, cells: readonly Cell[], phases: number): DiodesJudged {
  const zero = PHASE_NAMES.slice(0, phases).filter((_, phase) =>
    ROWS.every((_row, r) => cells[r * phases + phase] === 0),
  );
  const proofs = judged.findings.filter((finding) => finding.weight === "faulty");
  if (
    zero.length === 0 ||
    proofs.length === 0 ||
    !proofs.every(({ phases: at }) => at.every((phase) => zero.includes(phase)))
  )
    return judged;
  return {
    ...judged,
    state: "suspect",
    reason: `Phase ${zero.join(", ")} stands as 0 in all four rows: shorted both ways, or left blank in a sheet that hands blanks on as 0.`,
    next: "Read it once more and write 0.001 for a reading near zero, or hand blanks on as blanks.",
  };
}

function place({ states, part }: PartAnswer, { stands, phases }: DiodeLayout): Cell[][] {
  if (stands === "in rows") return [[...states, ...part]];
  const [state, reason, next] = part;
  const last = phases === 3 ? [...part] : [state, reason === "" ? "" : `${reason} Next: ${next}`];
  return [...ROWS.map((_, r) => states.slice(r * phases, (r + 1) * phases)), last];
}
