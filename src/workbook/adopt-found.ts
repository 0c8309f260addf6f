import { isBlank, type Block } from "../core/cell";
import { AUDIT_COLUMNS } from "../core/fleet/audit-columns";
import { matchLabel } from "../core/readings/match";
import { meaningOf, type Meaning } from "./adopt-headers";
import { columnNumber, overlaps } from "./address";
import { auditFormula, type AuditFormula } from "./audit-formula";
import type { Area } from "./port";
import type { SheetLanguage } from "./sheet-language";

/** What an audit goes by beside its table. */
export type Beside = Pick<AuditFormula, "machines" | "knownGood" | "settings">;

/** Results that stand beside a table already; they are renewed in their place, never doubled. */
export interface StandingResults {
  readonly kind: "spilled" | "row by row";
  /** Row of their headers. */
  readonly row: number;
  readonly column: number;
  readonly columns: number;
  /** What they are said in. */
  readonly language: SheetLanguage["code"];
  /** Rows below the headers. */
  readonly rows: number;
  /** Row behind the last that one formula for all rows reads, where it says so. */
  readonly readsTo?: number;
  /** What the formula goes by beside the table: it stays when the results are renewed. */
  readonly beside: Beside;
  /** What the user said the columns hold, where the formula names them; it goes with columns that are moved. */
  readonly meanings?: ReadonlyMap<number, Meaning>;
}

/** Finds them by their formulas and the headers over them. */
export function findResults(formulas: readonly (readonly string[])[], values: Block): readonly StandingResults[] {
  const found: StandingResults[] = [];
  const isByRow = (row: number, column: number) => auditFormula(formulas[row]?.[column] ?? "")?.byRow === true;
  formulas.forEach((line, row) => {
    line.forEach((formula, column) => {
      const audit = auditFormula(formula);
      if (!audit) return;
      const said = { language: audit.language === '"es all"' ? "es" : "en", beside: besideIn(audit) } as const;
      if (!audit.byRow) {
        // Its own headers do not say all: the formula names the columns, and its result has no header row.
        const row0 = audit.names === "" ? row : headerRowOver(values, row, column);
        const columns = AUDIT_COLUMNS.length;
        found.push({
          kind: "spilled",
          row: row0,
          column,
          columns,
          ...said,
          // Down to the formula itself at least, also while nothing is calculated yet.
          rows: Math.max(row - row0, 1, depth(values, row0 + 1, column, columns)),
          ...lastRowOf(audit),
          ...namedIn(audit),
        });
      } else if (!isByRow(row - 1, column)) {
        let rows = 1;
        while (isByRow(row + rows, column)) rows++;
        const row0 = headerRowOver(values, row, column);
        found.push({
          kind: "row by row",
          row: row0,
          column,
          columns: 1,
          ...said,
          rows: rows + row - row0 - 1,
          ...namedIn(audit),
        });
      }
    });
  });
  return joined(found);
}

/** Runs of formulas in columns that touch, of the same rows, are one result, where somebody typed over one as well. */
function joined(runs: readonly StandingResults[]): StandingResults[] {
  const out: StandingResults[] = [];
  for (const run of runs) {
    const i = out.findIndex(
      (one) => one.kind === "row by row" && run.kind === one.kind && overlaps(reachOf(one), reachOf(run)),
    );
    const one = out[i];
    if (!one) out.push(run);
    else {
      const [row, column] = [Math.min(one.row, run.row), Math.min(one.column, run.column)];
      const end = (of: "row" | "column", size: "rows" | "columns") =>
        Math.max(one[of] + one[size], run[of] + run[size]);
      out[i] = { ...one, row, column, rows: end("row", "rows") - row, columns: end("column", "columns") - column };
    }
  }
  return out.length < runs.length ? joined(out) : out;
}

/** Headers and rows, and the column beside them. */
function reachOf({ row, column, rows, columns }: StandingResults): Area {
  return { sheet: "", row, column, rows: rows + 1, columns: columns + 1 };
}

function besideIn({ machines, knownGood, settings }: AuditFormula): Beside {
  return { machines, knownGood, settings };
}

function lastRowOf({ table }: AuditFormula): Pick<StandingResults, "readsTo"> {
  const row = /\$?[A-Z]{1,3}\$?\d+:\$?[A-Z]{1,3}\$?(\d+)/u.exec(table)?.[1];
  return row === undefined ? {} : { readsTo: Number(row) };
}

/** The columns that a formula names, in the order in which it takes them. */
function namedIn({ names, table }: AuditFormula): Pick<StandingResults, "meanings"> {
  if (names === "") return {};
  const labels = [...names.matchAll(/"((?:[^"]|"")*)"/gu)].map(([, name]) => name!.replaceAll('""', '"'));
  const columns = [...table.matchAll(/IF\(\$?([A-Z]{1,3})\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?="",/gu)].map(([, letters]) =>
    columnNumber(letters!),
  );
  const meanings = new Map<number, Meaning>();
  labels.forEach((name, i) => {
    const match = matchLabel(name);
    const column = columns[i];
    if (match && column !== undefined) meanings.set(column, meaningOf(match));
  });
  return { meanings };
}

/** Headers stand right above, in whatever language, or with a row of units between: the results are blank there. */
function headerRowOver(values: Block, row: number, column: number): number {
  const blank = (at: number) => isBlank(values[at]?.[column]);
  return blank(row - 1) && !blank(row - 2) ? row - 2 : row - 1;
}

/** Rows that a spilled result covers, as far as its cells are filled. */
function depth(values: Block, first: number, column: number, columns: number): number {
  let rows = 0;
  for (let row = first; row < values.length; row++) {
    if (values[row]!.slice(column, column + columns).some((cell) => cell !== "" && cell !== null && cell !== undefined))
      rows = row - first + 1;
  }
  return rows;
}
