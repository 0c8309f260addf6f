import { isCellError, type Block, type Cell } from "../core/cell";
import { readArguments } from "./arguments";
import { UsageFault, type Command } from "./command";

/** `chargewright calc`: worksheet formulas, calculated without a worksheet. */
export const calc: Command = {
  help: `Usage: chargewright calc FORMULA... [--json]

Calculates worksheet formulas and prints their values: the functions of the CHG family, and
the built-in ones of a spreadsheet around them. Put each formula in single quotes:

  chargewright calc '=CHG.SOC(12.45,"flooded")'
  chargewright calc '=CHG.SOCBAND({12.45;12.61},"agm")' '=ROUND(1/3,2)'

Results that fill several cells are printed as rows, with tabs between the cells.
A formula that cannot be calculated prints its error and why; the others still are, and
the exit code is 1.

Options:
  --json   print one array with, per formula in order, {"values": [[...]]} or
           {"error": "#VALUE!", "message": "..."}; an error among several values stands
           in its place as {"error", "message"}
  --help   print this text`,

  async run(args, io) {
    const { options, operands } = readArguments(args, { json: { type: "boolean" } });
    if (operands.length === 0) throw new UsageFault("give at least one formula, for example '=1+1'.");
    const formulas = operands.map((text) => (text.trim().startsWith("=") ? text.trim() : `=${text.trim()}`));
    const { evaluate } = await import("../hosts/engine/evaluate");
    const evaluations = await evaluate(formulas);
    if (options.json) {
      io.out(JSON.stringify(evaluations.map((e) => ("fault" in e ? e.fault : { values: e.values }))));
    } else {
      for (const evaluation of evaluations) {
        if (evaluations.length > 1) io.out(evaluation.formula);
        const indent = evaluations.length > 1 ? "  " : "";
        const lines = "fault" in evaluation ? [text(evaluation.fault)] : rows(evaluation.values);
        for (const line of lines) io.out(indent + line);
      }
    }
    return evaluations.some(failed) ? 1 : 0;
  },
};

function failed(evaluation: { readonly fault?: unknown; readonly values?: Block }): boolean {
  return evaluation.fault !== undefined || (evaluation.values ?? []).some((row) => row.some(isCellError));
}

function rows(values: Block): string[] {
  return values.map((row) => row.map(text).join("\t"));
}

function text(cell: Cell): string {
  if (isCellError(cell)) return cell.message ? `${cell.error} ${cell.message}` : cell.error;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return String(cell ?? "");
}
