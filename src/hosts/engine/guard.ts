import type { Injector } from "@univerjs/core";
import {
  CELL_INVERTED_INDEX_CACHE,
  ErrorType,
  ErrorValueObject,
  ICalculateFormulaService,
  IFormulaDependencyGenerator,
  Interpreter,
} from "@univerjs/engine-formula";

/**
 * A built-in function that throws would end the whole calculation, and in Node the process; with
 * this it gives `#VALUE!` in its own cell and every other cell is calculated.
 */
export function guardInterpreter(injector: Injector): void {
  const interpreter = injector.get(Interpreter);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (node) => {
    try {
      return execute(node);
    } catch {
      return ErrorValueObject.create(ErrorType.VALUE);
    }
  };
}

/**
 * A calculation that breaks outside its formulas would never say that it ended, and whoever waits for it
 * would wait on; with this it ends with what it has, and the next edit is calculated.
 */
export function guardSteps(injector: Injector): void {
  const service = injector.get(ICalculateFormulaService) as unknown as { _executeStep?(): Promise<unknown> };
  const step = service._executeStep?.bind(service);
  if (!step) return;
  service._executeStep = () =>
    step().catch((error: unknown) => {
      console.error("A calculation broke; the next edit calculates anew.", error);
      return undefined;
    });
}

/** What is used of the generator's own steps. */
interface AddressStep {
  _calculateListByFunctionRefNode(
    trees: readonly { readonly addressFunctionNodes?: readonly unknown[] }[],
  ): Promise<void>;
}

/**
 * At every edit the engine indexes all formulas to find what OFFSET and INDIRECT point at, also
 * where no formula uses them. That took a quarter of the time of an edit on the job sheet.
 */
export function skipIdleAddressSearch(injector: Injector): void {
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as Partial<AddressStep>;
  const search = generator._calculateListByFunctionRefNode?.bind(generator);
  if (!search) return;
  generator._calculateListByFunctionRefNode = async (trees) => {
    if (trees.some((tree) => (tree.addressFunctionNodes?.length ?? 0) > 0)) await search(trees);
  };
}

/**
 * The engine answers the second comparison with a column from an index, in which zero and blank text
 * are one: `=A1=""` came out TRUE where A1 holds 0. Blank is not zero, so it has to look at the cells.
 * An index that nothing asks is not kept up either: beside 20,000 rows it took three quarters of the time.
 */
export function compareCellByCell(): void {
  CELL_INVERTED_INDEX_CACHE.canUseCache = () => ({ rowsInCache: [], rowsNotInCache: [] });
  CELL_INVERTED_INDEX_CACHE.set = () => undefined;
}
