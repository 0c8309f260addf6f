import { areaName, cellName, overlaps } from "../../../workbook/address";
import { WorkbookFault, type Area, type CellWrite } from "../../../workbook/port";
import { cellAgain, cellInput } from "../cell-content";
import { bands, MOST_CELLS, type Prepared, type Scope } from "./scope";

/** Values and formulas into cells, in bands that one request can carry. */
export function prepareWrite(scope: Scope, at: Area, values: readonly (readonly CellWrite[])[]): Prepared[] {
  if (values.length !== at.rows || values.some((row) => row.length !== at.columns)) {
    throw new WorkbookFault(`The values for ${areaName(at)} have another shape than their place.`, "host");
  }
  return bands(at, MOST_CELLS).map((band) =>
    prepareBand(scope, band, values.slice(band.row - at.row, band.row - at.row + band.rows)),
  );
}

function prepareBand(scope: Scope, at: Area, values: readonly (readonly CellWrite[])[]): Prepared {
  const carryOut = () => {
    scope.range(at).formulas = values.map((row) => row.map(cellInput));
  };
  const weight = at.rows * at.columns;
  if (scope.isNew(at.sheet)) return { weight, carryOut };

  const before = scope.range(at);
  before.load("values,formulas,valueTypes,numberFormat,hasSpill");
  const lock = before.format.protection;
  lock.load("locked");
  scope.askMerged(at.sheet);
  scope.askProtection(at.sheet);
  const spills = askSpills(scope, at, values);
  const filled = new FilledCells(scope, at);

  return {
    weight: weight * 2,
    carryOut,
    lookCloser: () => before.hasSpill !== false && filled.ask(values, before.values),
    refusal: () =>
      (lock.locked === false ? undefined : scope.protectedFault(at.sheet)) ??
      mergedRefusal(scope, at, values) ??
      filled.refusal(values) ??
      firstOf(spills, (spill) => spill.refusal()),
    putBack: () => {
      const range = scope.range(at);
      const only = <T>(pick: (r: number, c: number) => T) =>
        values.map((row, r) => row.map((write, c) => (write === undefined ? null : pick(r, c))));
      range.formulas = only((r, c) =>
        filled.has(r, c) ? "" : cellAgain(before.values[r]![c], before.formulas[r]![c], before.valueTypes[r]![c]),
      );
      range.numberFormat = only((r, c) => before.numberFormat[r]![c] as string);
    },
  };
}

function firstOf<T, U>(all: readonly T[], ask: (one: T) => U | undefined): U | undefined {
  for (const one of all) {
    const answer = ask(one);
    if (answer !== undefined) return answer;
  }
  return undefined;
}

/** Only the first cell of merged cells holds anything: what is written to the others is lost. */
function mergedRefusal(scope: Scope, at: Area, values: readonly (readonly CellWrite[])[]): WorkbookFault | undefined {
  const lost = scope.mergedIn(at).find((area) =>
    values.some((row, r) =>
      row.some((write, c) => {
        const [atRow, atColumn] = [at.row + r, at.column + c];
        const inside = overlaps(area, { row: atRow, column: atColumn, rows: 1, columns: 1 });
        return inside && write !== undefined && write !== "" && !(atRow === area.row && atColumn === area.column);
      }),
    ),
  );
  if (!lost) return undefined;
  return new WorkbookFault(
    `${areaName({ sheet: at.sheet, ...lost })} is merged, so values would be lost. Unmerge it or choose another place.`,
    "merged",
  );
}

/** Cells that show something which a formula in another cell spills into them. */
class FilledCells {
  readonly #parents = new Map<string, Excel.Range>();

  constructor(
    private readonly scope: Scope,
    private readonly at: Area,
  ) {}

  /** Asks every filled cell that is about to be written who fills it. */
  ask(values: readonly (readonly CellWrite[])[], before: readonly (readonly unknown[])[]): boolean {
    for (const [r, row] of values.entries()) {
      for (const [c, write] of row.entries()) {
        if (write === undefined || before[r]![c] === "") continue;
        const parent = this.scope
          .range({ sheet: this.at.sheet, row: this.at.row + r, column: this.at.column + c, rows: 1, columns: 1 })
          .getSpillParentOrNullObject();
        parent.load("rowIndex,columnIndex");
        this.#parents.set(`${r},${c}`, parent);
      }
    }
    return this.#parents.size > 0;
  }

  has(r: number, c: number): boolean {
    const parent = this.#parents.get(`${r},${c}`);
    if (!parent || parent.isNullObject) return false;
    return parent.rowIndex !== this.at.row + r || parent.columnIndex !== this.at.column + c;
  }

  /** A value put into such a cell breaks the formula, unless that formula is replaced as well. */
  refusal(values: readonly (readonly CellWrite[])[]): WorkbookFault | undefined {
    for (const [key, parent] of this.#parents) {
      const [r, c] = key.split(",").map(Number) as [number, number];
      if (!this.has(r, c)) continue;
      const { rowIndex, columnIndex } = parent;
      if (values[rowIndex - this.at.row]?.[columnIndex - this.at.column] !== undefined) continue;
      return new WorkbookFault(
        `${areaName({ ...this.at, row: this.at.row + r, column: this.at.column + c, rows: 1, columns: 1 })} is filled by the formula in ${cellName(rowIndex, columnIndex)}. Choose another place or clear that formula.`,
        "occupied",
      );
    }
    return undefined;
  }
}

/** The cells that a spilling formula will fill must be blank, or filled by that same formula now. */
function askSpills(
  scope: Scope,
  at: Area,
  values: readonly (readonly CellWrite[])[],
): { refusal: () => WorkbookFault | undefined }[] {
  return values.flatMap((row, r) =>
    row.flatMap((write, c) => {
      if (typeof write !== "object" || !write.spills || write.spills.rows * write.spills.columns <= 1) return [];
      const area: Area = { sheet: at.sheet, row: at.row + r, column: at.column + c, ...write.spills };
      const range = scope.range(area);
      range.load("values");
      const own = scope.range({ ...area, rows: 1, columns: 1 }).getSpillingToRangeOrNullObject();
      own.load("rowCount,columnCount");
      const refusal = () => {
        const free = (i: number, j: number) => !own.isNullObject && i < own.rowCount && j < own.columnCount;
        const written = (i: number, j: number) => values[r + i]?.[c + j] === "";
        const taken = range.values.some((line, i) =>
          line.some((value, j) => (i > 0 || j > 0) && value !== "" && !free(i, j) && !written(i, j)),
        );
        return taken
          ? new WorkbookFault(
              `The result would spill over ${areaName(area)}, where cells are filled. Clear them or choose another place.`,
              "occupied",
            )
          : undefined;
      };
      return [{ refusal }];
    }),
  );
}
