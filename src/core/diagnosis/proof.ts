import { judgeJob, type LimitOptions } from "../limits/judge-reading";
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
  /** Readings that showed the fault and were not taken again, by id. */
  readonly lacking: readonly string[];
  /** Readings of both visits side by side, in working order. */
  readonly rows: readonly ProofRow[];
  readonly before: Diagnosis;
  readonly after: Diagnosis;
}

/** How the parts are weighed and the readings judged. */
export type ProofOptions = DiagnosisOptions & Pick<LimitOptions, "rule" | "meter">;

/**
 * Proof after repair: the same readings again, before and after side by side. The one judgement of a
 * repair: the pane, the ticket and the answer for a part that comes back go by it.
 *
 * @param before - Machine data and readings of the job
 * @param after - The readings taken after the repair; machine data may be left out
 * @returns `undefined` where one of the two holds no reading
 */
export function proveRepair(before: Job, after: Job, options: ProofOptions = {}): Proof | undefined {
  const first = diagnose(before, options);
  const machine = [...before].filter(([id]) => entryOf(id)?.stage === "machine");
  const whole: Job = new Map([...machine, ...after]);
  const second = diagnose(whole, options);
  if (!first || !second) return undefined;
  const rows = sideBySide(before, after);
  const judged = judgeJob(whole, options);
  const failing = [...judged].flatMap(([id, { state }]) => (state === "fail" ? [id] : []));
  const shown = shownBy(first, before);
  const lacking = shown.filter((id) => !after.has(id));
  const passing = shown.filter((id) => judged.get(id)?.state === "pass");
  return { ...judge(first, second, { failing, lacking, passing, shown }), lacking, rows, before: first, after: second };
}

/** By so much must a chance have grown to be something new. */
const GROWN = 0.2;
/** Up to this chance a fault counts as gone. */
const GONE = 0.1;

interface Again {
  /** Readings after the repair that fail. */
  readonly failing: readonly string[];
  /** Readings that showed the fault: those not taken again, and those that pass now. */
  readonly lacking: readonly string[];
  readonly passing: readonly string[];
  readonly shown: readonly string[];
}

/**
 * Chances start from a machine that somebody complained of. After a repair that is not so any more: what
 * is merely likely while every reading passes speaks neither of a fault left nor of a new one.
 */
function judge(
  first: Diagnosis,
  second: Diagnosis,
  { failing, lacking, passing, shown }: Again,
): { outcome: ProofOutcome; sentence: string } {
  const part = first.verdict.part;
  const others = second.parts.filter((p) => p.part !== part);
  const worst = others.reduce((a, b) => (b.chance > a.chance ? b : a));
  const grown = worst.chance > chanceOf(first, worst.part) + GROWN;
  if (worst.state === "faulty" || (failing.length > 0 && worst.state === "suspect" && grown))
    return { outcome: "something new", sentence: `Something new: ${worst.sentence}` };
  if (part === "none")
    return { outcome: "unproven", sentence: "Nothing was found before, so there is nothing to prove." };
  if (failing.length > 0)
    return { outcome: "not repaired", sentence: `Not repaired: still outside the limit (${labels(failing)}).` };
  const left = chanceOf(second, part);
  if (second.verdict.part === part && second.verdict.state === "faulty")
    return { outcome: "not repaired", sentence: `Not repaired: the ${part} is still in question (${percent(left)}).` };
  if (lacking.length > 0)
    return { outcome: "unproven", sentence: `Not proven yet: take again what showed the fault (${labels(lacking)}).` };
  if (left <= GONE)
    return {
      outcome: "repaired",
      sentence: `Repaired: the ${part} reads in order now (chance of a fault in it ${percent(left)}).`,
    };
  if (shown.length > 0 && passing.length === shown.length)
    return {
      outcome: "repaired",
      sentence: `Repaired: what showed the fault passes now (${labels(passing)}), and nothing fails.`,
    };
  return { outcome: "unproven", sentence: `Not proven yet: the chance of a fault in the ${part} is ${percent(left)}.` };
}

function chanceOf({ parts }: Diagnosis, part: Part): number {
  return parts.find((p) => p.part === part)!.chance;
}

function labels(ids: readonly string[]): string {
  return ids.map((id) => entryOf(id)?.label ?? id).join(", ");
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
