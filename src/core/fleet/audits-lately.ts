import type { Block, Cell } from "../cell";
import { sameBlock, sameRow } from "../same-again";
import type { NamedTable } from "./named-table";

/** What an audit goes by beside its table: machine data, known-good parts, settings. */
export type AuditBasis = readonly Block[];

/** A table as it was audited, and what stands beside each of its rows. */
interface Audited {
  readonly header: readonly Cell[];
  readonly rows: Block;
  readonly basis: AuditBasis;
  readonly cells: Block;
}

/** What is new in a table that was audited before. */
export interface Changes {
  /** Results of the rows before the first that changed. */
  readonly before: Block;
  /** The rows from the first to the last that changed. */
  readonly rows: Block;
  /** Results of the rows behind the last that changed. */
  readonly behind: Block;
}

/** Shorter tables are audited before anyone has looked up. */
const LONG = 200;
/** A workbook has one fleet, at times two; each takes as much memory as its table. */
const KEPT = 2;
/** The latest first. */
let lately: readonly Audited[] = [];

/**
 * A fleet's table is calculated anew for every reading that is typed into it, though each row is judged for
 * itself: what an earlier audit said of all others still holds.
 *
 * @returns `undefined` where no audit of this table is remembered
 */
export function changesIn({ header, rows }: NamedTable, basis: AuditBasis): Changes | undefined {
  const known = lately.find(
    (one) => sameRow(one.header, header) && one.basis.every((block, i) => sameBlock(block, basis[i]!)),
  );
  if (!known) return undefined;
  const least = Math.min(rows.length, known.rows.length);
  let first = 0;
  while (first < least && sameRow(rows[first]!, known.rows[first]!)) first++;
  let alike = 0;
  while (alike < least - first && sameRow(rows.at(-1 - alike)!, known.rows.at(-1 - alike)!)) alike++;
  return {
    before: known.cells.slice(0, first),
    rows: rows.slice(first, rows.length - alike),
    behind: known.cells.slice(known.cells.length - alike),
  };
}

/**
 * Keeps an audit for the next of the same table. Nobody may change the blocks afterwards.
 *
 * @param cells - What stands beside each row, without a header row
 */
export function rememberAudit({ header, rows }: NamedTable, basis: AuditBasis, cells: Block): void {
  if (rows.length < LONG) return;
  const others = lately.filter((one) => !sameRow(one.header, header));
  lately = [{ header, rows, basis, cells }, ...others].slice(0, KEPT);
}

/** Forgets all audits: the next is worked out whole, and their memory is free. */
export function forgetAudits(): void {
  lately = [];
}
