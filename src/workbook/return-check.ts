import { diagnose, weigh, type PartVerdict } from "../core/diagnosis/diagnose";
import { openChecks } from "../core/diagnosis/direct-checks";
import { proveRepair, type ProofOptions, type ProofOutcome } from "../core/diagnosis/proof";
import { clearedBy, provenBy, type CheckRead } from "../core/diagnosis/proven-by";
import type { Job, Part } from "../core/readings/types";
import type { QuoteRow } from "./quote-record";

/**
 * What the record answers when a part comes back: was this part proven bad?
 *
 * `proven`: a direct check of the part showed it; `excluded`: everything else was shown to be good, no
 * check showed the part itself; `repaired`: shown bad, and after the work the same readings pass;
 * `suspected`, `cleared` as the diagnosis says; `recorded`: the readings are gone, a quote calls it
 * faulty; `unknown`: nothing tells, which is never a pass.
 */
export type ReturnKind = "proven" | "excluded" | "repaired" | "suspected" | "cleared" | "recorded" | "unknown";

export interface ReturnAnswer {
  readonly part: Part;
  readonly kind: ReturnKind;
  /** Chance of a fault in the part, where readings were weighed [1]. */
  readonly chance: number | undefined;
  /** On what grounds it was called faulty, in words. */
  readonly grounds: string | undefined;
  /** The checks with their readings that the answer stands on. */
  readonly checks: readonly CheckRead[];
  /** Checks of the part itself that are not done or not in order, by name. */
  readonly open: readonly string[];
  /** What the readings after the work say; absent where there are none or they are about another part. */
  readonly after: { readonly outcome: ProofOutcome; readonly sentence: string } | undefined;
  /** Quotes that name the part, latest first. */
  readonly quotes: readonly QuoteRow[];
}

/** What is left of a job: its readings, those after the work, its quotes. */
export interface JobRecord {
  readonly before: Job;
  readonly after: Job;
  readonly quotes: readonly QuoteRow[];
}

/** Answers from the readings, and only where there are none from what was quoted. */
export function returnCheck(record: JobRecord, part: Part, options: ProofOptions = {}): ReturnAnswer {
  const quotes = record.quotes.filter((row) => row.part === part);
  const weighed = weigh(record.before, options);
  const nothing = { part, chance: undefined, grounds: undefined, checks: [], open: [], after: undefined, quotes };
  if (!weighed) {
    const recorded = quotes.some(({ state }) => state === "faulty");
    return { ...nothing, kind: recorded ? "recorded" : "unknown" };
  }
  const verdict = weighed.parts.find((other) => other.part === part)!;
  const after = afterWork(record, part, options);
  const told = { ...nothing, chance: verdict.chance, after };
  switch (verdict.state) {
    case "faulty":
      return {
        ...told,
        kind: faultyKind(verdict, after?.outcome),
        grounds: verdict.proof?.words,
        checks: verdict.proof ? provenBy(record.before, verdict.proof, options) : [],
      };
    case "serviceable":
      return { ...told, kind: "cleared", checks: clearedBy(record.before, part, options) };
    default:
      return {
        ...told,
        kind: verdict.state === "suspect" ? "suspected" : "unknown",
        open: openChecks(part, weighed.findings),
      };
  }
}

function faultyKind({ proof }: PartVerdict, after: ProofOutcome | undefined): ReturnKind {
  if (after === "repaired") return "repaired";
  return proof?.kind === "direct check" ? "proven" : "excluded";
}

/** Readings after the work prove the part that the verdict named, and no other. */
function afterWork({ before, after }: JobRecord, part: Part, options: ProofOptions) {
  if (after.size === 0 || diagnose(before, options)?.verdict.part !== part) return undefined;
  const proof = proveRepair(before, after, options);
  return proof && { outcome: proof.outcome, sentence: proof.sentence };
}
