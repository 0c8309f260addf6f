import { entryOf, isReading } from "../readings/catalogue";
import type { Job, Part } from "../readings/types";
import { valueWords } from "./check-words";
import { diagnose, percent, type Diagnosis, type DiagnosisOptions } from "./diagnose";
import { faultOf, faultsOfKey } from "./faults";

/** `unproven`: the readings that showed the fault were not all taken again, or do not settle it. */
export type ProofOutcome = "repaired" | "not repaired" | "something new" | "unproven";

export interface ProofRow {
  readonly id: string;
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

export interface Proof {
  readonly outcome: ProofOutcome;
  readonly sentence: string;
  /** Readings of both visits side by side, in working order. */
  readonly rows: readonly ProofRow[];
  readonly before: Diagnosis;
  readonly after: Diagnosis;
}

/**
 * Proof after repair: the same readings again, before and after side by side.
 *
 * @param before - Machine data and readings of the job
 * @param after - The readings taken after the repair; machine data may be left out
 * @returns `undefined` where one of the two holds no reading
 */
export function proveRepair(before: Job, after: Job, options: DiagnosisOptions = {}): Proof | undefined {
  const first = diagnose(before, options);
  const machine = [...before].filter(([id]) => entryOf(id)?.stage === "machine");
  const second = diagnose(new Map([...machine, ...after]), options);
  if (!first || !second) return undefined;
  const rows = sideBySide(before, after);
  return { ...judge(first, second, before, after), rows, before: first, after: second };
}

/** From this chance on a part is still, or newly, in question after the repair. */
const IN_QUESTION = 0.3;
/** Up to this chance a fault counts as gone. */
const GONE = 0.1;

function judge(
  first: Diagnosis,
  second: Diagnosis,
  before: Job,
  after: Job,
): { outcome: ProofOutcome; sentence: string } {
  const part = first.verdict.part;
  const chanceOf = (d: Diagnosis, p: Part) => d.parts.find((v) => v.part === p)!.chance;
  const others = second.parts.filter((p) => p.part !== part);
  const worst = others.reduce((a, b) => (b.chance > a.chance ? b : a));
  // Something new: another part is proven bad, or in question where it was not before.
  if (worst.state === "faulty" || (worst.chance >= IN_QUESTION && worst.chance > chanceOf(first, worst.part) + 0.2)) {
    return { outcome: "something new", sentence: `Something new: ${worst.sentence}` };
  }
  if (part === "none")
    return { outcome: "unproven", sentence: "Nothing was found before, so there is nothing to prove." };
  const left = chanceOf(second, part);
  if (left >= IN_QUESTION)
    return { outcome: "not repaired", sentence: `Not repaired: the ${part} is still in question (${percent(left)}).` };
  const again = shownBy(first, before).filter((id) => !after.has(id));
  if (again.length > 0) {
    const names = again.map((id) => entryOf(id)?.label ?? id).join(", ");
    return { outcome: "unproven", sentence: `Not proven yet: take again what showed the fault (${names}).` };
  }
  if (left <= GONE)
    return {
      outcome: "repaired",
      sentence: `Repaired: the ${part} reads in order now (chance of a fault in it ${percent(left)}).`,
    };
  return { outcome: "unproven", sentence: `Not proven yet: the chance of a fault in the ${part} is ${percent(left)}.` };
}

/** Readings on whose check the verdict stood: those of the likeliest fault's direct checks. */
function shownBy(first: Diagnosis, before: Job): readonly string[] {
  const leading = first.faults[0]!;
  const checks = new Set(faultsOfKey(leading.fault).flatMap((id) => PROVING_CHECKS[faultOf(id).part ?? "load"]));
  return [...before.keys()].filter((id) => {
    const entry = entryOf(id);
    return (
      entry?.kind === "quantity" &&
      entry.meter !== undefined &&
      isReading(entry) &&
      checks.has(entry.check ?? "") &&
      !CONDITIONS.test(id)
    );
  });
}

const CONDITIONS = /rpm|temperature|meter-|hours-rested|load-test-(?:seconds|current)/u;

/** Checks that show a part at work again after it was replaced or mended. */
const PROVING_CHECKS: Readonly<Record<Part, readonly string[]>> = {
  battery: ["battery-at-rest", "load-test"],
  "regulator-rectifier": ["running-test"],
  stator: ["running-test", "no-load-ac"],
  rotor: ["running-test", "no-load-ac"],
  wiring: ["running-test", "voltage-drops"],
  load: ["key-off-draw", "key-on-load"],
};

function sideBySide(before: Job, after: Job): readonly ProofRow[] {
  const rows: ProofRow[] = [];
  for (const [id, measured] of before) {
    const entry = entryOf(id);
    const again = after.get(id);
    if (!entry || !isReading(entry) || again === undefined) continue;
    rows.push({ id, label: entry.label, before: valueWords(entry, measured), after: valueWords(entry, again) });
  }
  return rows;
}
