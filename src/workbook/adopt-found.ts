import { isBlank, type Block } from "../core/cell";
import { AUDIT_COLUMNS } from "../core/fleet/audit-columns";
import { IN_ORDER_BEFOREHAND } from "../core/diagnosis/starting-chances";
import { matchLabel } from "../core/readings/match";
import { meaningOf, type Meaning } from "./adopt-headers";
import { columnNumber } from "./address";
import type { SheetLanguage } from "./sheet-language";

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
  /** Share of machines that the formula takes to be in order beforehand [1]. */
  readonly beforehand?: number;
  /** What the user said the columns hold, where the formula names them; it goes with columns that are moved. */
  readonly meanings?: ReadonlyMap<number, Meaning>;
}

const SPILLED = /^=(?:CHG\.|_xldudf_CHG_)AUDIT\(/iu;
/** The setting of routine visits, as it stands in the formula. */
const BEFOREHAND = new RegExp(`,\\{"${IN_ORDER_BEFOREHAND}",([\\d.]+)\\}`, "u");
/** Its own headers do not say all: the formula names the columns, and its result has no header row. */
const NAMED = /,,,,\{/u;
const BY_ROW = /^=INDEX\((?:CHG\.|_xldudf_CHG_)AUDIT\(/iu;

/** Finds them by their formulas and the headers over them. */
export function findResults(formulas: readonly (readonly string[])[], values: Block): readonly StandingResults[] {
  const found: StandingResults[] = [];
  formulas.forEach((line, row) => {
    line.forEach((whole, column) => {
      if (whole === "") return;
      const formula = whole.replace(BEFOREHAND, ",");
      if (SPILLED.test(formula)) {
        const row0 = NAMED.test(formula) ? headerRowOver(values, row, column) : row;
        const columns = AUDIT_COLUMNS.length;
        found.push({
          kind: "spilled",
          row: row0,
          column,
          columns,
          language: languageIn(formula),
          // Down to the formula itself at least, also while nothing is calculated yet.
          rows: Math.max(row - row0, 1, depth(values, row0 + 1, column, columns)),
          ...namedIn(formula),
          ...beforehandIn(whole),
        });
      } else if (BY_ROW.test(formula) && !BY_ROW.test(formulas[row - 1]?.[column] ?? "")) {
        const last = found.at(-1);
        let rows = 1;
        while (BY_ROW.test(formulas[row + rows]?.[column] ?? "")) rows++;
        const row0 = headerRowOver(values, row, column);
        if (last?.kind === "row by row" && last.row === row0 && last.column + last.columns === column)
          found[found.length - 1] = { ...last, columns: last.columns + 1, rows: Math.max(last.rows, rows) };
        else
          found.push({
            kind: "row by row",
            row: row0,
            column,
            columns: 1,
            language: languageIn(formula),
            rows: rows + row - row0 - 1,
            ...namedIn(formula),
            ...beforehandIn(whole),
          });
      }
    });
  });
  return found;
}

const languageIn = (formula: string) => (/,"es all"\)/iu.test(formula) ? "es" : "en");

function beforehandIn(formula: string): Pick<StandingResults, "beforehand"> {
  const share = BEFOREHAND.exec(formula)?.[1];
  return share === undefined ? {} : { beforehand: Number(share) };
}

/** The columns that a formula names, in the order in which it takes them. */
function namedIn(formula: string): Pick<StandingResults, "meanings"> {
  const list = /,,,,\{((?:"(?:[^"]|"")*",?)+)\}/u.exec(formula)?.[1];
  if (list === undefined) return {};
  const names = [...list.matchAll(/"((?:[^"]|"")*)"/gu)].map(([, name]) => name!.replaceAll('""', '"'));
  const columns = [...formula.matchAll(/IF\(\$?([A-Z]{1,3})\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?="",/gu)].map(([, letters]) =>
    columnNumber(letters!),
  );
  const meanings = new Map<number, Meaning>();
  names.forEach((name, i) => {
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
