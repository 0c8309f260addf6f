import { isCellError, type Cell } from "../../core/cell";
import type { FunctionTable, WorksheetFunction } from "../../functions/function-table";
import { WordsNotAtHand } from "../../functions/told";

/** The part of Excel's function runtime that is used; handed in, so that tests can stand for it. */
export interface FunctionRuntime {
  associate(id: string, run: (...given: unknown[]) => unknown): void;
  readonly Error: new (code: CustomFunctions.ErrorCode, message?: string) => object;
}

/** Brings the words of another language, once a call asks for them. */
export type FetchWords = () => Promise<void>;

/**
 * Registers every worksheet function with Excel.
 *
 * @param functions - All functions by id
 * @param runtime - Excel's `CustomFunctions`
 * @param fetchWords - Brings the words of another language
 */
export function associateFunctions(functions: FunctionTable, runtime: FunctionRuntime, fetchWords: FetchWords): void {
  for (const [id, worksheetFunction] of Object.entries(functions)) {
    const run = asExcelFunction(worksheetFunction, runtime);
    runtime.associate(id, (...given) => withWords(() => run(...given), fetchWords, runtime));
  }
}

/** Answers at once where the words are at hand, and once they are fetched where a call asks for others. */
function withWords<T>(call: () => T, fetchWords: FetchWords, runtime: FunctionRuntime): T | Promise<T> {
  try {
    return call();
  } catch (thrown) {
    if (!(thrown instanceof WordsNotAtHand)) throw thrown;
    return fetched(fetchWords, runtime).then(call);
  }
}

function fetched<T>(fetch: () => Promise<T>, runtime: FunctionRuntime): Promise<T> {
  return fetch().catch(() => {
    throw excelError(runtime, "#N/A", "This function could not be fetched; check the connection and calculate again.");
  });
}

/** Makes the answer of a function richer than plain cells; `undefined` leaves it plain. */
export type Dress = (functions: FunctionTable, given: readonly unknown[]) => object | undefined;

/** Has a function worked out somewhere else, and gives what answers with that; `undefined` leaves all of it to be done here. */
export type Elsewhere = (given: readonly unknown[]) => Promise<WorksheetFunction | undefined>;

/**
 * Registers functions whose code is fetched at the first call; Excel shows the cell as busy meanwhile.
 *
 * @param ids - Their ids
 * @param fetch - Brings the functions
 * @param runtime - Excel's `CustomFunctions`
 * @param fetchWords - Brings the words of another language
 * @param dress - By id, functions whose answer may be a rich value
 * @param elsewhere - By id, functions that may be answered in other threads
 */
export function associateOnCall(
  ids: readonly string[],
  fetch: () => Promise<FunctionTable>,
  runtime: FunctionRuntime,
  fetchWords: FetchWords,
  dress: Readonly<Record<string, Dress>> = {},
  elsewhere: Readonly<Record<string, Elsewhere>> = {},
): void {
  for (const id of ids) {
    runtime.associate(id, async (...given: unknown[]) => {
      const functions = await fetched(fetch, runtime);
      const own = withoutInvocation(given);
      const run = asExcelFunction((await elsewhere[id]?.(own)) ?? functions[id]!, runtime);
      const plain = await withWords(() => run(...given), fetchWords, runtime);
      const rich = dress[id]?.(functions, own);
      return rich ? [[rich]] : plain;
    });
  }
}

/**
 * A worksheet function as Excel calls it: the invocation object that Excel appends is dropped, error
 * cells become Excel's own error values in their places, and nothing is ever thrown but such a value,
 * or that words are not at hand.
 */
export function asExcelFunction(worksheetFunction: WorksheetFunction, runtime: FunctionRuntime) {
  return (...given: unknown[]): unknown[][] => {
    let cells: Cell[][];
    try {
      cells = worksheetFunction(...withoutInvocation(given));
    } catch (thrown) {
      if (thrown instanceof WordsNotAtHand) throw thrown;
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
