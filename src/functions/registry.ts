import { batteryFunctions } from "./battery";
import { fleetFunctions } from "./fleet";
import type { FunctionTable } from "./function-table";
import { judgementFunctions } from "./judgement";
import { quoteFunctions } from "./quote";
import { rectifierFunctions } from "./rectifier";
import { verdictFunctions } from "./verdict";
import { wiringFunctions } from "./wiring";

export type { FunctionTable, WorksheetFunction } from "./function-table";

/** Namespace of every worksheet function: `=CHG.SOC(…)`. */
export const NAMESPACE = "CHG";

/** Every worksheet function by its name after the dot; the one list that all hosts register. */
export const FUNCTIONS: FunctionTable = { ...batteryFunctions, ...judgementFunctions, ...rectifierFunctions, ...wiringFunctions, ...quoteFunctions, ...fleetFunctions, ...verdictFunctions };
