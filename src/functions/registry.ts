import { cellsInSpanish } from "../core/words/spanish/cells";
import { batteryFunctions } from "./battery";
import { chargingFunctions } from "./charging";
import { fleetFunctions } from "./fleet";
import type { FunctionTable } from "./function-table";
import { judgementFunctions } from "./judgement";
import { noticesFunctions } from "./notices";
import { quoteFunctions } from "./quote";
import { rectifierFunctions } from "./rectifier";
import { statorFunctions } from "./stator";
import { holdSpanish } from "./told";
import { verdictFunctions } from "./verdict";
import { wiringFunctions } from "./wiring";

export type { FunctionTable, WorksheetFunction } from "./function-table";

/** Namespace of every worksheet function: `=CHG.SOC(…)`. */
export const NAMESPACE = "CHG";

// Whoever has every function at hand has their words at hand too.
holdSpanish(cellsInSpanish);

/** Every worksheet function by its name after the dot; the one list that all hosts register. */
export const FUNCTIONS: FunctionTable = {
  ...batteryFunctions,
  ...chargingFunctions,
  ...judgementFunctions,
  ...statorFunctions,
  ...rectifierFunctions,
  ...wiringFunctions,
  ...quoteFunctions,
  ...fleetFunctions,
  ...noticesFunctions,
  ...verdictFunctions,
};
