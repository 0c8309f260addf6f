import { isBlank, type Block, type Cell } from "../cell";
import { optionsFromCells } from "../diagnosis/to-cells";
import { textIn } from "../readings/catalogue";
import { jobsFromTable } from "../readings/from-cells";
import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { once, sameBlock } from "../same-again";
import { auditTable, type Audit } from "./audit";
import { AUDIT_COLUMNS } from "./audit-columns";
import { changesIn } from "./audits-lately";
import { joinAudits } from "./join-audits";
import { namedTable } from "./named-table";
import { headerRowOf, leftOutAs } from "./table-shape";

/**
 * The audit as cells that stand beside the table: its header row first, then a row for each of the
 * table's rows, blank beside a blank one, beside totals and beside the header again. With `names` the table is rows alone,
 * and so is the result.
 *
 * @param names - What the table's columns hold, one row; a blank leaves a column out
 */
export function auditCells(
  table: Block,
  machines: Block,
  knownGood: Block,
  settings: Block,
  names: Block = [],
): Result<Cell[][]> {
  if (table.length > 2 || machines.length > 1) return audited(table, machines, knownGood, settings, names);
  const key = JSON.stringify([table, machines, knownGood, settings, names]);
  const seen = SEEN.get(key) ?? audited(table, machines, knownGood, settings, names);
  if (SEEN.size >= MOST_SEEN) SEEN.clear();
  SEEN.set(key, seen);
  return seen;
}

/** Inside a table each result of a row stands in a formula of its own: all of them ask for the same audit. */
const SEEN = new Map<string, Result<Cell[][]>>();
const MOST_SEEN = 2_000;

function audited(table: Block, machines: Block, knownGood: Block, settings: Block, names: Block): Result<Cell[][]> {
  return andThen(namedTable(table, names), (parted) => {
    const { header, rows, named } = parted;
    // Rows without headers would all count as not read, and the first of them as the headers.
    if (headerRowOf([header]) === undefined && table.some((row) => !row.every(isBlank))) {
      return fail({
        code: "missing",
        what: named ? "A known name among the names" : "A known header in the first row",
        expected: "what the columns hold, such as Machine and Rested voltage",
      });
    }
    return andThen(optionsFromCells(knownGood, settings), (options) => {
      const beside = (part: Block) => {
        const whole = [header, ...part.map((row) => (leftOutAs(row, header) ? [] : row))];
        return besideTable(auditTable(whole, { ...options, machines: machinesOf(machines) }), part.length);
      };
      const basis = [machines, knownGood, settings];
      const changes = changesIn(parted, basis);
      const parts = changes ? [changes.before, beside(changes.rows), changes.behind] : [beside(rows)];
      return ok(joinAudits(parted, basis, parts));
    });
  });
}

/** Machine data by machine name, from a table with a row a machine; the later of two of one name stands. */
export function machinesFromCells(block: Block): ReadonlyMap<string, Job> {
  const machines = new Map<string, Job>();
  for (const { job } of jobsFromTable(block)) {
    const name = textIn(job, "machine-name");
    if (name !== undefined) machines.set(name.toLowerCase(), job);
  }
  return machines;
}

/** A long table comes in parts, and again whenever a reading was typed into it: its machine data is read once. */
const machinesOf = once(machinesFromCells, sameBlock);

/** What stands beside each row of a table, its header row left out; the order of risk is told of all rows together. */
function besideTable({ rows }: Audit, height: number): Cell[][] {
  const out: Cell[][] = Array.from({ length: height }, () => AUDIT_COLUMNS.map(() => ""));
  for (const r of rows) out[r.row - 1] = [r.part, r.state, r.chance ?? "", r.nextCheck, r.days ?? "", "", r.sentence];
  return out;
}
