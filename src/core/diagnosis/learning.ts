import { isBlank, type Block } from "../cell";
import { fail, ok, type Result } from "../result";
import { FAULTS, type FaultId } from "./faults";
import { SHIPPED_CHANCES, type StartingChances } from "./starting-chances";

/** A job of the shop's own that was closed: what was found, and whether the repair was proven. */
export interface ClosedJob {
  readonly fault: FaultId;
  /** The same readings again after the repair were in order. */
  readonly proven: boolean;
}

/**
 * Starting chances after the shop's own closed jobs: each proven job is one count of its fault on top
 * of the shipped ones (Dirichlet). Jobs without a proof after repair do not count.
 *
 * @param from - Where to start; leave out to start from the shipped chances, which is also the reset
 */
export function learn(closed: readonly ClosedJob[], from: StartingChances = SHIPPED_CHANCES): StartingChances {
  const counts: Partial<Record<FaultId, number>> = { ...from.counts };
  for (const { fault, proven } of closed) {
    if (proven) counts[fault] = (counts[fault] ?? 0) + 1;
  }
  return { counts };
}

const plain = (text: string) =>
  text
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/gu, " ");
const BY_NAME = new Map(
  FAULTS.flatMap(
    (f) =>
      [
        [plain(f.id), f.id],
        [plain(f.label), f.id],
      ] as const,
  ),
);

/** A fault by its label or id, as it stands in a cell. */
export function faultNamed(text: string): FaultId | undefined {
  return BY_NAME.get(plain(text));
}

const FAULT_HEADERS = ["fault", "fault found", "found", "cause"];
const PROOF_HEADERS = ["proof", "proof after repair", "proven", "outcome"];
const YES = ["yes", "y", "true", "1", "repaired", "proven", "ok"];

/**
 * Reads the shop's closed jobs from a table with a header row: a column with the fault found, a column
 * with the proof after repair; others are ignored.
 */
export function closedJobsFromCells(block: Block): Result<readonly ClosedJob[]> {
  if (block.every((row) => row.every(isBlank))) return ok([]);
  const headers = (block[0] ?? []).map((cell) => plain(String(cell ?? "")));
  const faultColumn = headers.findIndex((h) => FAULT_HEADERS.includes(h));
  const proofColumn = headers.findIndex((h) => PROOF_HEADERS.includes(h));
  if (faultColumn < 0 || proofColumn < 0) {
    return fail({
      code: "shape",
      what: "closed jobs",
      came: `headers ${headers.filter(Boolean).join(", ") || "none"}`,
      expected: "a header row with Fault found and Proof after repair",
    });
  }
  const jobs: ClosedJob[] = [];
  for (const row of block.slice(1)) {
    const cell = row[faultColumn];
    if (isBlank(cell)) continue;
    const fault = faultNamed(String(cell));
    if (!fault)
      return fail({
        code: "not-understood",
        what: "fault found",
        came: String(cell),
        expected: "the name of a fault as CHG.CAUSES writes it, such as Sulfated battery",
      });
    jobs.push({ fault, proven: YES.includes(plain(String(row[proofColumn] ?? ""))) || row[proofColumn] === true });
  }
  return ok(jobs);
}
