import type { Block, Cell } from "../cell";
import { ruleAt } from "../judgement/conformance";
import { meterFromCells } from "../judgement/meter-from-cells";
import { jobFromCells, jobsFromTable } from "../readings/from-cells";
import { matchLabel } from "../readings/match";
import { parseEntry } from "../readings/parse";
import type { Job, Measured } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { once, sameBlock } from "../same-again";
import { expectationOf } from "./expectation";
import { CONDITIONS } from "./conditions";
import { frameOf, type Frame, type LimitOptions } from "./frame";
import { judgeReadingIn } from "./judge-reading";

/** What a check of readings in cells is given besides the readings themselves. */
export interface CheckGiven {
  readonly machine: Block;
  readonly conditions: Block;
  readonly meter: Block;
  /** Known-good parts: a header row with a part a row, or one part as a list. */
  readonly knownGood: Block;
  /** Chance from which on a reading passes; it fails at the mirrored one [1]. */
  readonly passAt: number;
}

/** State, low, high, chance, reason of one reading, named as a sheet names it. */
export type CheckCells = (readingId: string, value: Cell) => Result<readonly Cell[]>;

export const NOT_READ_CELLS: readonly Cell[] = ["not read", "", "", "", ""];

/**
 * Prepares the check of any number of readings against one machine, its conditions and one meter.
 *
 * @returns The check of one reading; the fault of the first cell of machine, conditions of measurement,
 *   meter or known-good parts that cannot be read
 */
export const checkWith: (given: CheckGiven) => Result<CheckCells> = once(prepareCheck, sameGiven);

function sameGiven(one: CheckGiven, other: CheckGiven): boolean {
  return (
    one.passAt === other.passAt &&
    sameBlock(one.machine, other.machine) &&
    sameBlock(one.conditions, other.conditions) &&
    sameBlock(one.meter, other.meter) &&
    sameBlock(one.knownGood, other.knownGood)
  );
}

function prepareCheck(given: CheckGiven): Result<CheckCells> {
  return andThen(jobOf(given.machine), (machine) =>
    andThen(
      jobOf(given.conditions, (id) => CONDITIONS.has(id)),
      (conditions) =>
        andThen(meterFromCells(given.meter), (meter) =>
          andThen(knownGoodJobs(given.knownGood), (knownGood) => {
            const surroundings = new Map([...machine, ...conditions]);
            // One machine for all rows: it is solved once for each speed.
            const options: LimitOptions = {
              meter,
              knownGood,
              rule: ruleAt(given.passAt),
              expected: expectationOf(surroundings),
            };
            const frame = frameOf(surroundings, options);
            return ok((readingId: string, value: Cell) => checkOne(frame, options, readingId, value));
          }),
        ),
    ),
  );
}

function checkOne(frame: Frame, options: LimitOptions, readingId: string, value: Cell): Result<readonly Cell[]> {
  const match = matchLabel(readingId);
  if (match?.entry.kind !== "quantity") {
    return fail({
      code: "not-understood",
      what: "readingId",
      came: readingId,
      expected: "a reading of the catalogue, such as Rested voltage or key-off-draw",
    });
  }
  const { entry, unit } = match;
  const typed = typeof value === "number" && unit !== undefined ? `${value} ${unit}` : value;
  return andThen(parseEntry(typed, entry), (measured) => {
    if (measured === null) return ok(NOT_READ_CELLS);
    // Where it stands among the conditions as well, as on the job sheet, all readings share what is known of the job.
    const shared = sameMeasured(frame.job.get(entry.id), measured);
    const own = shared ? frame : frameOf(new Map(frame.job).set(entry.id, measured), options);
    const judged = judgeReadingIn(own, entry.id);
    const reason = judged.customary
      ? `${judged.reason} ${judged.customary.words[0]!.toUpperCase()}${judged.customary.words.slice(1)}.`
      : judged.reason;
    return ok([judged.state, judged.limit?.low ?? "", judged.limit?.high ?? "", judged.chance ?? "", reason]);
  });
}

function sameMeasured(one: Measured | undefined, other: Measured): boolean {
  return one !== undefined && FIELDS.every((field) => one[field as keyof Measured] === other[field as keyof Measured]);
}
const FIELDS = ["kind", "value", "resolution", "note"] as const;

/**
 * What stands in cells. A fault is the answer only where it `matters`: among the readings of a job, one
 * that cannot be read says so in its own row and counts as not read for the others.
 */
function jobOf(block: Block, matters: (id: string) => boolean = () => true): Result<Job> {
  return andThen(jobFromCells(block), ({ job, issues }) => {
    const bad = issues.find((issue) => issue.fault !== undefined && matters(matchLabel(issue.label)?.entry.id ?? ""));
    return bad?.fault ? fail(bad.fault) : ok(job);
  });
}

function knownGoodJobs(block: Block): Result<readonly Job[]> {
  if (block.length < 3 || block[0]!.length < 3) return andThen(jobOf(block), (job) => ok(job.size > 0 ? [job] : []));
  const rows = jobsFromTable(block);
  const bad = rows.flatMap(({ issues }) => issues).find((issue) => issue.fault !== undefined);
  return bad?.fault ? fail(bad.fault) : ok(rows.map(({ job }) => job));
}
