import { ICommandService, IUniverInstanceService, UndoCommand } from "@univerjs/core";
import { SetRangeValuesCommand } from "@univerjs/sheets";
import { openHeadlessGrid } from "../../src/hosts/grid/headless-grid";
import { workbookContract } from "./contract";

describe("the grid without a screen", () => {
  workbookContract(
    async () => {
      const { workbook, engine, close } = openHeadlessGrid();
      const commands = engine.injector.get(ICommandService);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.book.getUnitId());
      const { book } = engine;
      return {
        workbook,
        close,
        undo: async () => void (await commands.executeCommand(UndoCommand.id)),
        // What the grid's own cell editor executes when a cell is left.
        type: async (sheet, row, column, text) => {
          const range = { startRow: row, endRow: row, startColumn: column, endColumn: column };
          const value = { v: Number.isNaN(Number(text)) ? text : Number(text), f: null, p: null, si: null };
          await commands.executeCommand(SetRangeValuesCommand.id, {
            unitId: book.getUnitId(),
            subUnitId: book.getSheetBySheetName(sheet)!.getSheetId(),
            range,
            value,
          });
        },
      };
    },
    { calculates: true, typedInto: true, undoes: true },
  );
});
