import {
  isFunction,
  parseA1Ref,
  parseStructRef,
  stringifyTokens,
  tokenize,
  tokenTypes,
  type Token,
} from "@borgar/fx/xlsx";
import { fixedRange, sheetPrefix } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import type { StoredTable, StoredWorkbook } from "./read-workbook";

/** Which cells a formula reads. */
export interface Reach {
  /** The formula with references to tables written as addresses. */
  readonly formula: string;
  readonly areas: readonly Area[];
  /** Computes where it reads (OFFSET, INDIRECT): any cell may be meant. */
  readonly anywhere: boolean;
  /** What it refers to that is not in this workbook, or that nothing is known of. */
  readonly foreign?: string;
}

const MAX_ROWS = 1_048_576;
const MAX_COLUMNS = 16_384;
const WANDERING = new Set(["OFFSET", "INDIRECT"]);
/** Names may stand for formulas with names; deeper than this they go round in circles. */
const DEEPEST_NAME = 16;

/**
 * Finds what a formula reads, through names and tables.
 *
 * @param typed - Formula as people type it, with `=`
 * @param at - The cell it stands in
 */
export function reachOf(typed: string, at: { sheet: string; row: number }, book: StoredWorkbook): Reach {
  const areas: Area[] = [];
  const state = { anywhere: false, foreign: undefined as string | undefined };

  const read = (formula: string, depth: number): readonly Token[] => {
    const tokens = tokenize(formula);
    const own = new Set(tokens.filter((t) => t.type === tokenTypes.REF_NAMED).map((t) => t.value.toUpperCase()));
    const defines = tokens.some((t) => isFunction(t) && /^(?:LET|LAMBDA)$/iu.test(t.value));
    return tokens.map((token, i) => {
      if (isFunction(token) && WANDERING.has(token.value.toUpperCase())) state.anywhere = true;
      // A range that begins or ends with a function's result reaches where that says.
      if (token.type === tokenTypes.OPERATOR && token.value === ":" && tokens[i - 1]) state.anywhere = true;
      switch (token.type) {
        case tokenTypes.REF_RANGE:
        case tokenTypes.REF_BEAM:
        case tokenTypes.REF_TERNARY: {
          // A relative address in a name means another cell in each cell.
          const area = depth > 0 && isRelative(token.value) ? undefined : areaOf(token.value, at.sheet);
          if (area) areas.push(area);
          else state.foreign ??= token.value;
          return token;
        }
        case tokenTypes.REF_STRUCT: {
          const area = tableArea(token.value, at, book.tables);
          if (!area) {
            state.foreign ??= token.value;
            return token;
          }
          areas.push(area);
          return { ...token, type: tokenTypes.REF_RANGE, value: sheetPrefix(area.sheet) + fixedRange(area) };
        }
        case tokenTypes.REF_NAMED: {
          const table = book.tables.find(({ name }) => name.toUpperCase() === token.value.toUpperCase());
          if (table) {
            const area = dataOf(table);
            areas.push(area);
            return { ...token, type: tokenTypes.REF_RANGE, value: sheetPrefix(area.sheet) + fixedRange(area) };
          }
          const meaning = nameOf(token.value, at.sheet, book);
          if (meaning === undefined) {
            // LET and LAMBDA define names of their own.
            if (!defines || !own.has(token.value.toUpperCase())) state.foreign ??= token.value;
          } else if (depth >= DEEPEST_NAME) {
            state.foreign ??= token.value;
          } else {
            read(meaning, depth + 1);
          }
          return token;
        }
        default:
          return token;
      }
    });
  };

  const formula = stringifyTokens([...read(typed, 0)]);
  return {
    formula,
    areas,
    anywhere: state.anywhere,
    ...(state.foreign === undefined ? {} : { foreign: state.foreign }),
  };
}

function areaOf(text: string, sheet: string): Area | undefined {
  const ref = parseA1Ref(text);
  if (!ref || !("range" in ref) || !ref.range || ref.workbookName) return undefined;
  // Ranges over several sheets are not followed.
  if (ref.sheetName?.includes(":")) return undefined;
  const [top, left] = [ref.range.top ?? 0, ref.range.left ?? 0];
  const [bottom, right] = [ref.range.bottom ?? MAX_ROWS - 1, ref.range.right ?? MAX_COLUMNS - 1];
  return {
    sheet: ref.sheetName || sheet,
    row: Math.min(top, bottom),
    column: Math.min(left, right),
    rows: Math.abs(bottom - top) + 1,
    columns: Math.abs(right - left) + 1,
  };
}

function isRelative(text: string): boolean {
  const ref = parseA1Ref(text);
  if (!ref || !("range" in ref) || !ref.range) return false;
  const { top, left, bottom, right, $top, $left, $bottom, $right } = ref.range;
  const loose = (at: number | null | undefined, fixed: boolean | null | undefined) => typeof at === "number" && !fixed;
  return loose(top, $top) || loose(left, $left) || loose(bottom, $bottom) || loose(right, $right);
}

function nameOf(name: string, sheet: string, book: StoredWorkbook): string | undefined {
  const bang = name.lastIndexOf("!");
  const [scope, bare] =
    bang < 0
      ? [sheet, name]
      : [name.slice(0, bang).replaceAll(/^'|'$/gu, "").replaceAll("''", "'"), name.slice(bang + 1)];
  const same = book.names.filter((known) => known.name.toUpperCase() === bare.toUpperCase());
  return (same.find((known) => known.sheet === scope) ?? same.find((known) => known.sheet === undefined))?.formula;
}

function tableArea(text: string, at: { sheet: string; row: number }, tables: readonly StoredTable[]): Area | undefined {
  const ref = parseStructRef(text);
  if (!ref || ref.workbookName) return undefined;
  const table = ref.table
    ? tables.find(({ name }) => name.toUpperCase() === ref.table!.toUpperCase())
    : tables.find(({ at: area }) => area.sheet === at.sheet && at.row >= area.row && at.row < area.row + area.rows);
  if (!table) return undefined;
  const rows = rowsOf(table, ref.sections ?? [], at.row);
  if (!rows) return undefined;
  const indexes = (ref.columns ?? []).map((column) =>
    table.columns.findIndex((known) => known.toUpperCase() === column.toUpperCase()),
  );
  if (indexes.includes(-1)) return undefined;
  const [first, last] =
    indexes.length === 0 ? [0, table.columns.length - 1] : [Math.min(...indexes), Math.max(...indexes)];
  return { sheet: table.at.sheet, ...rows, column: table.at.column + first, columns: last - first + 1 };
}

function dataOf(table: StoredTable): Area {
  return {
    ...table.at,
    row: table.at.row + table.headerRows,
    rows: table.at.rows - table.headerRows - table.totalsRows,
  };
}

function rowsOf(
  table: StoredTable,
  sections: readonly string[],
  row: number,
): { row: number; rows: number } | undefined {
  const data = dataOf(table);
  const wanted = sections.length === 0 ? ["data"] : sections;
  const pieces = wanted.map((section): { row: number; rows: number } | undefined => {
    switch (section) {
      case "all":
        return table.at;
      case "headers":
        return table.headerRows > 0 ? { row: table.at.row, rows: table.headerRows } : undefined;
      case "totals":
        return table.totalsRows > 0 ? { row: data.row + data.rows, rows: table.totalsRows } : undefined;
      case "this row":
        return row >= data.row && row < data.row + data.rows ? { row, rows: 1 } : undefined;
      default:
        return data;
    }
  });
  if (pieces.some((piece) => !piece)) return undefined;
  const first = Math.min(...pieces.map((piece) => piece!.row));
  const end = Math.max(...pieces.map((piece) => piece!.row + piece!.rows));
  return { row: first, rows: end - first };
}
