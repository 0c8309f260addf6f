import { isBlank, type Block } from "../cell";
import type { PartState } from "../judgement/types";
import { fail, ok, type Result } from "../result";
import { PARTS, type Part } from "../readings/types";
import { causesFromCells, faultsBehind } from "./faults-behind";
import { plain } from "./price-list";
import type { QuotedVerdict } from "./quote";

const STATES: readonly PartState[] = ["faulty", "suspect", "unproven", "serviceable"];
const NO_PART = ["none", "no fault found", "healthy"];

/**
 * Reads what `VERDICT`, `NEXTCHECK` and `CAUSES` gave: part, state, chance, sentence; check, minutes;
 * fault, part, chance in rows.
 *
 * @returns `null` while there is no verdict yet
 */
export function verdictFromCells(verdict: Block, nextCheck: Block, causes: Block = []): Result<QuotedVerdict | null> {
  const cells = verdict.flat();
  const [partCell, stateCell, , sentenceCell] = cells;
  if (isBlank(partCell) || plain(String(partCell)) === "not read") return ok(null);
  const partWord = plain(String(partCell));
  const part = PARTS.find((p) => plain(p) === partWord);
  if (!part && !NO_PART.includes(partWord)) {
    return fail({
      code: "not-understood",
      what: "verdict, part",
      came: String(partCell),
      expected: `the cells of CHG.VERDICT, whose part is one of: none, ${PARTS.join(", ")}`,
    });
  }
  const state = part ? STATES.find((s) => s === plain(String(stateCell ?? ""))) : "serviceable";
  if (!state) {
    return fail({
      code: "not-understood",
      what: "verdict, state",
      came: String(stateCell ?? ""),
      expected: `one of: ${STATES.join(", ")}`,
    });
  }
  const weighed = causesFromCells(causes);
  if (!weighed.ok) return weighed;
  const [checkCell, minutesCell] = nextCheck.flat();
  const minutes = Number(minutesCell);
  const words = isBlank(sentenceCell) ? `${part ?? "no part"}: ${state}.` : String(sentenceCell);
  return ok({
    ...(part ? { part: part satisfies Part, faults: faultsBehind(part, weighed.value) } : {}),
    state,
    sentence: words,
    ...(isBlank(checkCell) || !(minutes > 0) ? {} : { nextCheck: { label: String(checkCell), minutes } }),
  });
}
