import { isBlank, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { matchLabel } from "./match";
import { isUnitWordFor } from "./units";

/** How the cells of one job can be read; both ways where their labels alone do not tell. */
export type JobLayout =
  /** Column with the labels, values right of it. */
  | { readonly list: number; readonly table?: undefined }
  /** Row with the labels, values in the row below. */
  | { readonly table: number; readonly list?: undefined }
  | { readonly list: number; readonly table: number };

/**
 * Tells a list of labels and values from a header row with a row below it.
 *
 * @param block - Cells, not all blank
 * @returns The layout; `not-understood` where no label is known, `shape` where it cannot be told which
 *   label goes with which value
 */
export function layoutOf(block: Block): Result<JobLayout> {
  const table = block.findIndex((row) => labelsIn(row) > 0);
  if (table < 0) {
    return fail({
      code: "not-understood",
      what: "readings",
      came: String(block.flat().find((cell) => !isBlank(cell))),
      expected:
        "two columns (label, value), or a header row with a row of values below, with labels such as Rested voltage",
    });
  }
  const header = block[table]!;
  const list = header.findIndex((_, column) => labelsIn(columnOf(block, column)) > 0);
  const below = block.slice(table + 1).filter((row) => !row.every(isBlank)).length;
  const down = labelsIn(columnOf(block, list));
  const across = labelsIn(header.filter((_, column) => !isUnitBeside(header, list, column)));
  if (list === header.length - 1) {
    if (down > 1) return cannotTell("more than one label in a single column");
  } else if (down >= across) {
    const second = secondLabels(block, list);
    if (second !== undefined) return cannotTell(`"${second}" with a value of its own right of the first labels`);
    return ok(down > across || below !== 1 ? { list } : { list, table });
  }
  if (below > 1) return cannotTell(`${below} rows of readings`, "the header row and one row");
  if (below === 0 && (table === block.length - 1 || header.some(isValue)))
    return cannotTell("a row of labels without a row of readings below");
  return ok({ table });
}

/** The fault of cells in which it cannot be told which label goes with which value. */
export function cannotTell(
  came: string,
  expected = "two columns (label, value), or a header row and one row of readings",
): Result<never> {
  return fail({ code: "shape", what: "readings", came, expected });
}

/** The first label with a value beside it that stands where a list has no place for one. */
function secondLabels(block: Block, list: number): string | undefined {
  for (const row of block) {
    for (let column = list + 2; column < row.length - 1; column++) {
      if (isBlank(row[column + 1]) || isUnitBeside(row, list, column) || labelsIn([row[column]]) === 0) continue;
      return String(row[column]).trim();
    }
  }
  return undefined;
}

/** Some units are labels too: `Ah` beside a capacity. */
function isUnitBeside(row: readonly Cell[], list: number, column: number): boolean {
  const [label, unit] = [row[list], row[column]];
  if (column !== list + 2 || typeof label !== "string" || typeof unit !== "string") return false;
  const entry = matchLabel(label)?.entry;
  return entry?.kind === "quantity" && isUnitWordFor(unit, entry.unit);
}

function isValue(cell: Cell): boolean {
  return typeof cell === "number" || (typeof cell === "string" && /^\s*[<>+−-]?[.,]?\d/u.test(cell));
}

function columnOf(block: Block, column: number): readonly Cell[] {
  return block.map((row) => row[column]);
}

function labelsIn(cells: readonly Cell[]): number {
  return cells.filter((cell) => typeof cell === "string" && matchLabel(cell) !== undefined).length;
}
