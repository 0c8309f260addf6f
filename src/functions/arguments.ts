import { isBlank, isCellError, type Block, type Cell } from "../core/cell";
import { parseChoice, parseQuantity, type Parsed, type QuantitySpec } from "../core/readings/parse";
import type { ChoiceEntry, Measured } from "../core/readings/types";
import { fail, ok, type Result } from "../core/result";

/** One argument of a worksheet function: how a cell of it is read. */
export interface Argument<T> {
  readonly name: string;
  readonly read: (cell: Cell) => Parsed<T>;
  /** What an omitted or blank cell stands for; without it a blank makes the whole result blank. */
  readonly whenBlank?: { readonly value: T };
}

/** An argument that gives a plain number in the unit of `spec`. */
export function number(name: string, spec: Omit<QuantitySpec, "what" | "overload">): Argument<number> {
  const full: QuantitySpec = { ...spec, what: name };
  return {
    name,
    read: (cell) => {
      const parsed = parseQuantity(cell, full);
      if (!parsed.ok) return parsed;
      return ok(parsed.value?.kind === "number" ? parsed.value.value : null);
    },
  };
}

/** An argument that may also read over-range or one-sided. */
export function measured(name: string, spec: Omit<QuantitySpec, "what" | "overload">): Argument<Measured> {
  const full: QuantitySpec = { ...spec, what: name, overload: true };
  return { name, read: (cell) => parseQuantity(cell, full) };
}

/** An argument that keeps the last digit written, for judging; over-range means nothing here. */
export function reading(name: string, spec: Omit<QuantitySpec, "what" | "overload">): Argument<Measured> {
  const full: QuantitySpec = { ...spec, what: name };
  return { name, read: (cell) => parseQuantity(cell, full) };
}

/** An argument that is one of a few words. */
export function choice<V extends string>(
  name: string,
  choices: readonly { readonly value: V; readonly label: string; readonly synonyms?: readonly string[] }[],
): Argument<V> {
  return { name, read: (cell) => parseChoice(cell, name, choices as ChoiceEntry["choices"]) as Parsed<V> };
}

/** An argument that is kept as typed. */
export function text(name: string): Argument<string> {
  return {
    name,
    read: (cell) => {
      if (isBlank(cell)) return ok(null);
      if (isCellError(cell)) return fail({ code: "not-understood", what: name, came: cell.error, expected: "text" });
      return ok(String(cell).trim());
    },
  };
}

/** A number in whatever unit its neighbours have: no unit is written with it. */
export function bareNumber(name: string): Argument<number> {
  const { read } = number(name, { unit: "1", min: -1e12, max: 1e12 });
  return {
    name,
    read: (cell) => {
      const parsed = read(cell);
      if (parsed.ok || parsed.fault.code !== "not-understood") return parsed;
      return fail({ ...parsed.fault, expected: "a number without a unit, in the same unit as the other arguments" });
    },
  };
}

/** An argument that is handed on as it stands in its cell, for a computation that knows its kind. */
export function asTyped(name: string): Argument<Cell> {
  return { name, read: (cell) => ok(isBlank(cell) ? null : cell) };
}

/** Makes an argument optional: blank or omitted stands for `value`. */
export function optional<T>(argument: Argument<T>, value: T): Argument<T> {
  return { ...argument, whenBlank: { value } };
}

/** Makes an argument optional without a default: blank or omitted arrives as `undefined`. */
export function optionalOrAbsent<T>(argument: Argument<T>): Argument<T | undefined> {
  return { ...(argument as Argument<T | undefined>), whenBlank: { value: undefined } };
}

/**
 * What a host hands over for one argument, as a block of plain cells: a single value, a range, an
 * entity with a `basicValue`, or nothing (`null`), which is one blank cell. Rows of unlike length
 * are filled up with blanks, so that a block is always rectangular and never empty.
 */
export function toBlock(given: unknown): Block {
  if (!Array.isArray(given) || given.length === 0) return [[toCell(Array.isArray(given) ? null : given)]];
  const rows = given.map((row) => (Array.isArray(row) ? row.map(toCell) : [toCell(row)]));
  const width = rows.reduce((widest, row) => Math.max(widest, row.length), 1);
  return rows.map((row) =>
    row.length === width ? row : [...row, ...Array.from({ length: width - row.length }, () => null)],
  );
}

function toCell(given: unknown): Cell {
  if (given === null || given === undefined) return null;
  if (typeof given === "string" || typeof given === "number" || typeof given === "boolean") return given;
  if (typeof given === "object") {
    if (isCellError(given)) return given;
    const value = given as { basicValue?: unknown; type?: unknown; code?: unknown };
    if (typeof value.basicValue === "string" && value.basicValue.startsWith("#")) {
      return { error: value.basicValue as "#VALUE!" };
    }
    if ("basicValue" in value) return toCell(value.basicValue);
    if (typeof value.code === "string" && value.code.startsWith("#")) return { error: value.code as "#VALUE!" };
  }
  return { error: "#VALUE!" };
}

/** The word in the first cell of an argument, blank where there is none. */
export function wordOf(given: unknown): string {
  const first = toBlock(given)[0]![0];
  return isCellError(first) ? first.error : String(first ?? "").trim();
}

/** Reads a block of fixed shape; a blank cell arrives as `null`. */
export function readShape<T>(
  block: Block,
  argument: Argument<T>,
  rows: number,
  columns: number,
): Result<(T | null)[][]> {
  if (block.length !== rows || block.some((row) => row.length !== columns)) {
    return fail({
      code: "shape",
      what: argument.name,
      came: `a range of ${block.length} × ${block[0]?.length ?? 0} cells`,
      expected: `${rows} rows × ${columns} columns`,
    });
  }
  const out: (T | null)[][] = [];
  for (const row of block) {
    const line: (T | null)[] = [];
    for (const cell of row) {
      const read = argument.read(cell);
      if (!read.ok) return read;
      line.push(read.value);
    }
    out.push(line);
  }
  return ok(out);
}

/** Reads an argument that is one cell: its value, its default, or `undefined` where blank without one. */
export function readOne<T>(given: unknown, argument: Argument<T>): Result<T | undefined> {
  const read = readShape(toBlock(given), argument, 1, 1);
  if (!read.ok) return read;
  return ok(read.value[0]?.[0] ?? argument.whenBlank?.value);
}
