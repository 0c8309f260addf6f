import type { Block, Cell } from "../cell";
import { ruleAt } from "../judgement/conformance";
import { meterFromCells } from "../judgement/meter-from-cells";
import { jobFromCells, jobsFromTable } from "../readings/from-cells";
import { matchLabel } from "../readings/match";
import { parseEntry } from "../readings/parse";
import type { Judged } from "../judgement/types";
import type { Job, Measured, QuantityEntry } from "../readings/types";
import { andThen, fail, ok, type Fault, type Result } from "../result";
import { once, sameBlock } from "../same-again";
import { AskedJob } from "./asked-job";
import { expectationOf } from "./expectation";
import { CONDITIONS } from "./conditions";
import { frameOf, type LimitOptions } from "./frame";
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
 * @returns The check of one reading, which gives the fault of the cell of machine or conditions of measurement that
 *   it depends on and that cannot be read; the fault of the first such cell of meter or known-good parts
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
  return andThen(readOf(given.machine), (machine) =>
    andThen(readOf(given.conditions), (conditions) =>
      andThen(meterFromCells(given.meter), (meter) =>
        andThen(knownGoodJobs(given.knownGood), (knownGood) => {
          const surroundings = new Map([...machine.job, ...conditions.job]);
          const unread = new Map([
            ...[...machine.faults].filter(([id]) => !conditions.job.has(id)),
            // Among the readings of a job, one that cannot be read counts as not read for the others.
            ...[...conditions.faults].filter(([id]) => CONDITIONS.has(id)),
          ]);
          const options: LimitOptions = { meter, knownGood, rule: ruleAt(given.passAt) };
          // One machine for all rows: it is solved once for each speed.
          const expected = expectationOf(surroundings);
          const frame = frameOf(surroundings, { ...options, expected });
          return ok((readingId: string, value: Cell) =>
            checkOne(readingId, value, ({ id, unit }, measured) => {
              if (unread.size > 0) return judgedWithout(unread, surroundings, options, { id, unit }, measured);
              // Where it stands among the conditions as well, as on the job sheet, all readings share what is known of the job.
              const shared = sameMeasured(frame.job.get(id), measured);
              const own = shared ? frame : frameOf(new Map(surroundings).set(id, measured), { ...options, expected });
              return ok(judgeReadingIn(own, id));
            }),
          );
        }),
      ),
    ),
  );
}

/** Judges where some values cannot be read; refused where the judgement asks for one of them. */
function judgedWithout(
  unread: ReadonlyMap<string, Fault>,
  surroundings: Job,
  options: LimitOptions,
  { id, unit }: Pick<QuantityEntry, "id" | "unit">,
  measured: Measured,
): Result<Judged> {
  // A meter is put together for every judgement; the smallest step of its ohm range is for ohms alone.
  const mattering = [...unread].filter(([one]) => one !== id && (one !== "meter-ohm-step" || unit === "Ω"));
  const job = new AskedJob([...surroundings, [id, measured]], new Map(mattering));
  const judged = judgeReadingIn(frameOf(job, options), id);
  return job.fault ? fail(job.fault) : ok(judged);
}

function checkOne(
  readingId: string,
  value: Cell,
  judgedOf: (entry: QuantityEntry, measured: Measured) => Result<Judged>,
): Result<readonly Cell[]> {
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
    return andThen(judgedOf(entry, measured), (judged) => {
      const reason = judged.customary
        ? `${judged.reason} ${judged.customary.words[0]!.toUpperCase()}${judged.customary.words.slice(1)}.`
        : judged.reason;
      return ok([judged.state, judged.limit?.low ?? "", judged.limit?.high ?? "", judged.chance ?? "", reason]);
    });
  });
}

function sameMeasured(one: Measured | undefined, other: Measured): boolean {
  return one !== undefined && FIELDS.every((field) => one[field as keyof Measured] === other[field as keyof Measured]);
}
const FIELDS = ["kind", "value", "resolution", "note"] as const;

/** What stands in cells, and why some of it cannot be read, by catalogue id. */
function readOf(block: Block): Result<{ readonly job: Job; readonly faults: ReadonlyMap<string, Fault> }> {
  return andThen(jobFromCells(block), ({ job, issues }) => {
    const faults = issues.flatMap(({ fault, label }) =>
      fault ? [[matchLabel(label)?.entry.id ?? "", fault] as const] : [],
    );
    return ok({ job, faults: new Map(faults) });
  });
}

function knownGoodJobs(block: Block): Result<readonly Job[]> {
  if (block.length < 3 || block[0]!.length < 3) {
    return andThen(readOf(block), ({ job, faults }) => {
      const [bad] = faults.values();
      return bad ? fail(bad) : ok(job.size > 0 ? [job] : []);
    });
  }
  const rows = jobsFromTable(block);
  const bad = rows.flatMap(({ issues }) => issues).find((issue) => issue.fault !== undefined);
  return bad?.fault ? fail(bad.fault) : ok(rows.map(({ job }) => job));
}
