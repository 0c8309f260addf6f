import type { Block, Cell } from "../core/cell";
import { optionsFromCells } from "../core/diagnosis/to-cells";
import { auditTable, type AuditOptions } from "../core/fleet/audit";
import { machinesFromCells } from "../core/fleet/audit-cells";
import { rowAnswer, type RowAnswer } from "../core/fleet/row-answer";
import { isTotalsRow } from "../core/fleet/table-shape";
import { faultMessage } from "../core/result";

/** A row as a warehouse hands it over: an object by column name, or its JSON text. */
export type WarehouseRow = string | Readonly<Record<string, Cell>>;

/** What the audit says of one row; numbers are `null` where there is none. */
export interface WarehouseResult extends RowAnswer {
  /** Cells of this row that could not be read. */
  readonly notUnderstood: readonly { readonly column: string; readonly what: string }[];
  /** Columns that are no readings, and second columns of one reading: they were not used. */
  readonly notUsed: readonly string[];
}

/** What all rows are judged with, each a table with its header row first. */
export interface WarehouseTables {
  readonly machines?: Block;
  readonly knownGood?: Block;
  readonly settings?: Block;
}

const NONE: Block = [[""]];

/**
 * Makes the function that audits one row; done once, it serves every row of a query.
 *
 * @param tables - Machine data, known-good parts and settings, or their JSON text
 * @throws Where a table of settings cannot be understood, with the sentence that says why
 */
export function auditor(tables: string | WarehouseTables = {}): (row: WarehouseRow) => WarehouseResult | null {
  const { machines, knownGood, settings } =
    typeof tables === "string" ? (JSON.parse(tables) as WarehouseTables) : tables;
  const known = optionsFromCells(knownGood ?? NONE, settings ?? NONE);
  if (!known.ok) throw new Error(faultMessage(known.fault));
  const options: AuditOptions = { ...known.value, machines: machinesFromCells(machines ?? NONE) };
  return (row) => auditOne(row, options);
}

const plainAuditor = auditor();

/** Audits one row with nothing but what stands in it; `null` for a blank row and a totals row. */
export function auditRow(row: WarehouseRow): WarehouseResult | null {
  return plainAuditor(row);
}

function auditOne(row: WarehouseRow, options: AuditOptions): WarehouseResult | null {
  const object = typeof row === "string" ? (JSON.parse(row) as Readonly<Record<string, Cell>>) : row;
  const header = Object.keys(object);
  const cells = header.map((name) => object[name]);
  if (isTotalsRow(cells)) return null;
  const { rows, issues } = auditTable([header, cells], options);
  const one = rows[0];
  if (!one) return null;
  return {
    ...rowAnswer(one),
    notUnderstood: issues.flatMap(({ kind, column, fault }) =>
      kind === "fault" && fault ? [{ column: header[column]!.trim(), what: faultMessage(fault) }] : [],
    ),
    notUsed: issues.filter(({ kind }) => kind !== "fault").map(({ label }) => label),
  };
}
