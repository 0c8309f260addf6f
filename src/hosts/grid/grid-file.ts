import type { Injector, Workbook } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { CellReader } from "../engine/read-cells";
import { authorWorkbook } from "../file/author";
import { BookModel } from "../file/book-model";
import { callsOurs } from "../file/file-formula";
import { fillLastValues } from "../file/fill-last-values";
import { stepsOfGrid } from "./grid-steps";

/**
 * The grid's workbook as an .xlsx file, every formula with the value the grid shows. All formulas must
 * have been calculated.
 *
 * @param about - What the file says of itself
 * @throws WorkbookFault where a sheet's name cannot stand in a file
 */
export async function fileOfGrid(
  injector: Injector,
  book: Workbook,
  about: { readonly title: string; readonly created: Date },
): Promise<Uint8Array> {
  const model = new BookModel();
  const steps = stepsOfGrid(injector, book);
  model.apply(steps);
  const formulas = injector.get(FormulaDataModel);
  const readers = new Map(
    book.getSheets().map((sheet) => [sheet.getName(), new CellReader(book, sheet, formulas)] as const),
  );
  const ours = steps.some(
    (step) =>
      step.do === "write" &&
      step.values.some((line) => line.some((cell) => typeof cell === "object" && callsOurs(cell.formula))),
  );
  return fillLastValues(
    await authorWorkbook(model, about),
    {
      value: (sheet, row, column) => readers.get(sheet)?.value(row, column) ?? "",
      spill: (sheet, row, column) => {
        const area = readers.get(sheet)?.spill(row, column);
        if (!area) return { rows: 1, columns: 1 };
        return { rows: area.endRow - area.startRow + 1, columns: area.endColumn - area.startColumn + 1 };
      },
    },
    { ours },
  );
}
