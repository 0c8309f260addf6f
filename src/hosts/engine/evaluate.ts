import {
  ICalculateFormulaService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  type CalculateFormulaService,
  type FunctionVariantType,
} from "@univerjs/engine-formula";
import { isCellError, type Block, type CellError } from "../../core/cell";
import { formulaFault } from "./formula-fault";
import { freshUnit } from "./fresh-unit";
import { openHeadless } from "./headless";
import { blockFrom } from "./values";

/** What one formula gives: a block of values, or one error with a sentence of its own. */
export type Evaluation = { readonly formula: string } & ({ readonly values: Block } | { readonly fault: CellError });

/**
 * Calculates formulas by themselves, outside any sheet; each gives its values or its error whatever
 * becomes of the others. A cell they name is blank.
 */
export async function evaluate(formulas: readonly string[]): Promise<Evaluation[]> {
  const unit = freshUnit();
  const engine = openHeadless({
    id: unit,
    sheetOrder: [SHEET],
    sheets: { [SHEET]: { id: SHEET, name: "Sheet1", rowCount: ROWS, columnCount: COLUMNS } },
  });
  try {
    const service = engine.injector.get(ICalculateFormulaService) as CalculateFormulaService;
    const runtime = engine.injector.get(IFormulaRuntimeService);
    engine.injector.get(IFormulaCurrentConfigService).loadDataLite();
    const evaluations: Evaluation[] = [];
    for (const formula of formulas) {
      const fault = formulaFault(formula);
      if (fault) {
        evaluations.push({ formula, fault });
        continue;
      }
      runtime.reset();
      runtime.setCurrent(0, 0, ROWS, COLUMNS, SHEET, unit);
      evaluations.push({ formula, ...settled(await calculated(service, formula)) });
    }
    return evaluations;
  } finally {
    engine.close();
  }
}

const SHEET = "sheet";
/** The size of a sheet in the usual spreadsheet program: results may be as large. */
const ROWS = 1_048_576;
const COLUMNS = 16_384;

async function calculated(service: CalculateFormulaService, formula: string): Promise<FunctionVariantType | undefined> {
  try {
    return await service.calculate(formula);
  } catch {
    return undefined;
  }
}

function settled(variant: FunctionVariantType | undefined): { values: Block } | { fault: CellError } {
  if (!variant)
    return { fault: { error: "#VALUE!", message: "This formula cannot be calculated; check its parts one by one." } };
  const values = blockFrom(variant).map((row) => row.map((cell) => cell ?? ""));
  const only = values.length === 1 && values[0]!.length === 1 ? values[0]![0] : undefined;
  return isCellError(only) ? { fault: explained(only) } : { values };
}

/** Gives the engine's own errors a sentence as well. */
export function explained(cell: CellError): CellError {
  return cell.message === undefined ? { ...cell, message: SENTENCES[cell.error] } : cell;
}

const SENTENCES: Readonly<Record<CellError["error"], string>> = {
  "#VALUE!": "A value in this formula is not of the kind that is needed there.",
  "#N/A": "No value is available, or a function was given too few or too many arguments.",
  "#REF!": "A cell or range in this formula does not exist.",
  "#NAME?": "A name in this formula is not known; text goes in double quotes.",
  "#NUM!": "A number in this formula has no result or is out of range.",
  "#DIV/0!": "Something is divided by zero or by a blank cell.",
  "#NULL!": "Two ranges in this formula have no cell in common.",
  "#BUSY!": "The value is still being calculated.",
  "#SPILL!": "There is no room for the results; clear the cells around the formula.",
  "#CALC!": "This formula gives a kind of result that a cell cannot hold.",
};
