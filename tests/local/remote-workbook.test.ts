import { ICommandService, IUniverInstanceService, UndoCommand } from "@univerjs/core";
import { SetRangeValuesCommand } from "@univerjs/sheets";
import { openHeadlessGrid } from "../../src/hosts/grid/headless-grid";
import { answerCall } from "../../src/local/desk-answers";
import { RemoteWorkbook } from "../../src/local/remote-workbook";
import type { Answered, DeskEvent } from "../../src/local/share-protocol";
import { workbookContract } from "../hosts/contract";

/** Everything goes through text, as it does between a phone and the computer. */
describe("the workbook as a phone sees it", () => {
  workbookContract(
    async () => {
      const { workbook, engine, close } = openHeadlessGrid();
      const { book, injector } = engine;
      const commands = injector.get(ICommandService);
      injector.get(IUniverInstanceService).focusUnit(book.getUnitId());
      const remote = new RemoteWorkbook({
        ask: async (body) => {
          const answer = await answerCall(workbook, JSON.stringify({ id: 1, ...(JSON.parse(body) as object) }));
          return JSON.parse(JSON.stringify(answer)) as Answered;
        },
        listen: (listener) => {
          const pass = (event: DeskEvent) => listener(JSON.parse(JSON.stringify(event)) as DeskEvent);
          workbook.onEdit((at) => pass({ kind: "edit", at }));
          workbook.onCalculated(() => pass({ kind: "calculated" }));
        },
      });
      return {
        workbook: remote,
        close,
        undo: async () => void (await commands.executeCommand(UndoCommand.id)),
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
