import { fleetFunctions } from "./fleet";
import type { FunctionTable } from "./function-table";
import { quoteFunctions } from "./quote";

export type { FunctionTable, WorksheetFunction } from "./function-table";

/** Namespace of every worksheet function: `=CHG.SOC(…)`. */
export const NAMESPACE = "CHG";

/** Every worksheet function by its name after the dot; the one list that all hosts register. */
export const FUNCTIONS: FunctionTable = { ...quoteFunctions, ...fleetFunctions };
