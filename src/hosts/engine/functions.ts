import type { Ctor } from "@univerjs/core";
import { BaseFunction, type BaseValueObject, type FunctionVariantType } from "@univerjs/engine-formula";
import type { Cell } from "../../core/cell";
import { FUNCTIONS, NAMESPACE, type FunctionTable, type WorksheetFunction } from "../../functions/registry";
import { AnchorArray } from "./anchor-array";
import { blockFrom, variantOf } from "./values";

/** A function as the engine wants it: its class, and the name under which a formula calls it. */
export type EngineFunction = [Ctor<BaseFunction>, string];

/**
 * Every worksheet function for the engine, each under the name people type (`CHG.SOC`) and under the
 * name that a workbook file stores (`_xldudf_CHG_SOC`; names are matched in upper case).
 */
export function engineFunctions(table: FunctionTable = FUNCTIONS): EngineFunction[] {
  const ours = Object.entries(table).flatMap(([name, compute]): EngineFunction[] => {
    const executor = executorOf(compute);
    return [
      [executor, `${NAMESPACE}.${name}`],
      [executor, `_XLDUDF_${NAMESPACE}_${name}`],
    ];
  });
  return [...ours, [AnchorArray, "ANCHORARRAY"], [AnchorArray, "_XLFN.ANCHORARRAY"]];
}

/** Wraps one function; it sees blanks and errors as they are, and nothing it throws gets out. */
function executorOf(compute: WorksheetFunction): Ctor<BaseFunction> {
  return class extends BaseFunction {
    override minParams = 0;
    override maxParams = 255;

    override calculate(...variants: BaseValueObject[]): BaseValueObject {
      return variantOf(
        guarded(
          compute,
          variants.map((variant) => blockFrom(variant as FunctionVariantType)),
        ),
      );
    }
  } as Ctor<BaseFunction>;
}

function guarded(compute: WorksheetFunction, given: unknown[]): Cell[][] {
  try {
    return compute(...given);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return [[{ error: "#VALUE!", message: `This function failed and gives no value (${reason}); please report it.` }]];
  }
}
