import { isCellError, type Cell } from "../../core/cell";
import type { FunctionTable, WorksheetFunction } from "../../functions/registry";

/** The part of Excel's function runtime that is used; handed in, so that tests can stand for it. */
export interface FunctionRuntime {
  associate(id: string, run: (...given: unknown[]) => unknown): void;
  readonly Error: new (code: CustomFunctions.ErrorCode, message?: string) => object;
}

/**
 * Registers every worksheet function with Excel.
 *
 * @param functions - All functions by id
 * @param runtime - Excel's `CustomFunctions`
 */
export function associateFunctions(functions: FunctionTable, runtime: FunctionRuntime): void {
  for (const [id, worksheetFunction] of Object.entries(functions)) {
    runtime.associate(id, asExcelFunction(worksheetFunction, runtime));
  }
}

/** Makes the answer of a function richer than plain cells; `undefined` leaves it plain. */
export type Dress = (functions: FunctionTable, given: readonly unknown[]) => object | undefined;

/** Has a function answered somewhere else; `undefined` leaves it to be answered here. */
export type Elsewhere = (given: readonly unknown[]) => Promise<Cell[][] | undefined>;

/**
 * Registers functions whose code is fetched at the first call; Excel shows the cell as busy meanwhile.
 *
 * @param ids - Their ids
 * @param fetch - Brings the functions
 * @param runtime - Excel's `CustomFunctions`
 * @param dress - By id, functions whose answer may be a rich value
 * @param elsewhere - By id, functions that may be answered in other threads
 */
export function associateOnCall(
  ids: readonly string[],
  fetch: () => Promise<FunctionTable>,
  runtime: FunctionRuntime,
  dress: Readonly<Record<string, Dress>> = {},
  elsewhere: Readonly<Record<string, Elsewhere>> = {},
): void {
  for (const id of ids) {
    runtime.associate(id, async (...given: unknown[]) => {
      const functions = await fetch().catch(() => {
        throw excelError(
          runtime,
          "#N/A",
          "This function could not be fetched; check the connection and calculate again.",
        );
      });
      const handed = await elsewhere[id]?.(withoutInvocation(given));
      if (handed) return outgoingBlock(handed, runtime);
      const plain = asExcelFunction(functions[id]!, runtime)(...given);
      const rich = dress[id]?.(functions, withoutInvocation(given));
      return rich ? [[rich]] : plain;
    });
  }
}

/**
 * A worksheet function as Excel calls it: the invocation object that Excel appends is dropped, error
 * cells become Excel's own error values in their places, and nothing is ever thrown but such a value.
 */
export function asExcelFunction(worksheetFunction: WorksheetFunction, runtime: FunctionRuntime) {
  return (...given: unknown[]): unknown[][] => {
    let cells: Cell[][];
    try {
      cells = worksheetFunction(...withoutInvocation(given));
    } catch {
      throw excelError(
        runtime,
        "#VALUE!",
        "This function met a fault of its own with these values; please check each argument.",
      );
    }
    return outgoingBlock(cells, runtime);
  };
}

function outgoingBlock(cells: Cell[][], runtime: FunctionRuntime): unknown[][] {
  const only = cells.length === 1 && cells[0]?.length === 1 ? cells[0][0] : undefined;
  // Thrown, the message of a single cell shows in every Excel that has error codes at all.
  if (isCellError(only)) throw excelError(runtime, only.error, only.message);
  return cells.map((row) =>
    row.map((cell) => (isCellError(cell) ? excelError(runtime, cell.error, cell.message) : outgoing(cell, runtime))),
  );
}

/** Excel puts an object with the call's address and the like behind the last argument. */
function withoutInvocation(given: readonly unknown[]): readonly unknown[] {
  const last = given.at(-1);
  return isInvocation(last) ? given.slice(0, -1) : given;
}

function isInvocation(value: unknown): boolean {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return false;
  return (
    !("basicValue" in value) &&
    !("type" in value) &&
    !("basicType" in value) &&
    !isCellError(value) &&
    !("code" in value)
  );
}

/** Only `#VALUE!` and `#N/A` carry a message; names and references are not Excel's to give back. */
function excelError(runtime: FunctionRuntime, code: string, message?: string): object {
  switch (code) {
    case "#N/A":
      return new runtime.Error("#N/A" as CustomFunctions.ErrorCode, message);
    case "#DIV/0!":
    case "#NUM!":
    case "#NULL!":
      return new runtime.Error(code as CustomFunctions.ErrorCode);
    default:
      return new runtime.Error(
        "#VALUE!" as CustomFunctions.ErrorCode,
        message ?? (code === "#VALUE!" ? undefined : `An argument holds ${code}.`),
      );
  }
}

function outgoing(cell: Cell, runtime: FunctionRuntime): unknown {
  if (cell === null || cell === undefined) return "";
  if (typeof cell === "number" && !Number.isFinite(cell)) return excelError(runtime, "#NUM!");
  return cell;
}
