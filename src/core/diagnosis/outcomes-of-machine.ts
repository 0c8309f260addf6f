import type { Frame } from "./frame";
import { GENERATING, hasOnePair, isGroundedByDesign } from "./machine-kind";
import { byState, CHECK_OUTCOMES, clear, outcome, type CheckOutcomes, type Outcome, type StateCheck } from "./outcomes";
import { isRotorWeak } from "./rotor-evidence";

/** @param into - Which of `outcomes` the only pair shows in place of each outcome of three pairs */
function ofOnePair(check: string, into: readonly number[], ...outcomes: readonly Outcome[]): StateCheck {
  const { states, table: three } = CHECK_OUTCOMES.find((c) => c.check === check) as StateCheck;
  const table = new Float64Array((three.length / into.length) * outcomes.length);
  three.forEach((chance, i) => {
    const at = Math.floor(i / into.length) * outcomes.length + into[i % into.length]!;
    table[at] = table[at]! + chance;
  });
  return { check, outcomes, states, table };
}

/** Shorted turns have no sisters to be uneven with: they read low, as a weak rotor does. */
const ONE_PAIR: readonly CheckOutcomes[] = [
  ofOnePair(
    "no-load-ac",
    [0, 1, 1, 2],
    outcome("full", "no-load-full"),
    outcome("below what it should be"),
    outcome("none"),
  ),
  ofOnePair(
    "winding-ohms",
    [0, 1, 2, 3],
    outcome("as it should be", "winding-even"),
    outcome("an open winding or lead", "winding-open"),
    outcome("below what it should be"),
    outcome("above what it should be"),
  ),
];
const ROTOR: CheckOutcomes = {
  check: "rotor",
  outcomes: [outcome("as it should be"), outcome("an open winding or lead", "field-open")],
  ...byState((h) => (isRotorWeak(h) ? "weak" : "sound"), { sound: clear(0, 2, 0.99), weak: [0.4, 0.6] }),
};

/** AC under load is compared from pair to pair; a field-excited machine gives none unplugged, its phases end inside. */
const without = (list: readonly CheckOutcomes[], checks: RegExp) => list.filter(({ check }) => !checks.test(check));
const SINGLE_PHASE = [...without(CHECK_OUTCOMES, /-ac$|-ohms$/u), ...ONE_PAIR];
const FIELD_EXCITED = [...without(CHECK_OUTCOMES, /-ac$|-ohms$|^phase/u), ROTOR];

const WITHOUT_GENERATOR = without(CHECK_OUTCOMES, GENERATING);

/** The checks that a machine of this kind has, with what they can show. */
export function outcomesOf(frame: Frame): readonly CheckOutcomes[] {
  if (frame.alternator === "other") return WITHOUT_GENERATOR;
  const own = hasOnePair(frame) ? SINGLE_PHASE : frame.alternator === "field-excited" ? FIELD_EXCITED : CHECK_OUTCOMES;
  const kept = isGroundedByDesign(frame) ? without(own, /ground$/u) : own;
  // Without a regulator there is no band to be below at idle.
  return frame.unregulated ? without(kept, /idle$/u) : kept;
}
