import type { Block, Cell } from "../cell";
import { optionsFromCells } from "../diagnosis/to-cells";
import { jobsFromTable } from "../readings/from-cells";
import type { Job } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import { auditTable, type Audit } from "./audit";

export const AUDIT_COLUMNS = ["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"] as const;

/**
 * The audit as cells that stand beside the table: its header row first, then a row for each of the
 * table's rows, blank beside a blank one.
 */
export function auditCells(table: Block, machines: Block, knownGood: Block, settings: Block): Result<Cell[][]> {
  return andThen(optionsFromCells(knownGood, settings), (options) =>
    ok(besideTable(auditTable(table, { ...options, machines: machinesFromCells(machines) }), table.length)),
  );
}

/** Machine data by machine name, from a table with a row a machine; the later of two of one name stands. */
export function machinesFromCells(block: Block): ReadonlyMap<string, Job> {
  const machines = new Map<string, Job>();
  for (const { job } of jobsFromTable(block)) {
    const name = job.get("machine-name");
    if (name?.kind === "text") machines.set(name.value.toLowerCase(), job);
  }
  return machines;
}

function besideTable({ rows, order }: Audit, height: number): Cell[][] {
  const out: Cell[][] = Array.from({ length: height }, () => AUDIT_COLUMNS.map(() => ""));
  out[0] = [...AUDIT_COLUMNS];
  rows.forEach((r, i) => {
    out[r.row] = [r.part, r.state, r.chance ?? "", r.nextCheck, r.days ?? "", order[i]!, r.sentence];
  });
  return out;
}
