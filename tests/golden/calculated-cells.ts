import { isCellError, type Cell } from "../../src/core/cell";
import { cellName } from "../../src/workbook/address";
import type { Workbook } from "../../src/workbook/port";

/**
 * A sheet as lines of text, one for each filled cell: its name, the type of what it shows, and that
 * itself. Blank, zero, FALSE, and the text of each stay apart.
 */
export async function calculatedCells(workbook: Workbook, sheet: string): Promise<string[]> {
  const { values, formulas } = await workbook.read(await workbook.usedArea(sheet));
  return values.flatMap((line, row) =>
    line.flatMap((cell, column) => {
      const formula = formulas[row]![column]! !== "";
      if (cell === "" && !formula) return [];
      return [[cellName(row, column), formula ? "formula" : "value", ...typeAndText(cell)].join("\t")];
    }),
  );
}

function typeAndText(cell: Cell): [type: string, text: string] {
  if (isCellError(cell)) return ["error", `${cell.error} ${cell.message ?? ""}`.trim()];
  if (typeof cell === "number") return ["number", String(Number(cell.toPrecision(6)))];
  if (typeof cell === "boolean") return ["boolean", cell ? "TRUE" : "FALSE"];
  return ["text", JSON.stringify(cell ?? "")];
}
