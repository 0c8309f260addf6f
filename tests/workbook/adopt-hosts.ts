import { ICommandService, IUniverInstanceService, UndoCommand } from "@univerjs/core";
import { verdict } from "../../src/functions/verdict";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { openHeadlessGrid } from "../../src/hosts/grid/headless-grid";
import type { Workbook } from "../../src/workbook/port";
import { SHEET } from "./adopt-sheets";

/** Workbooks that tables are adopted in, and what their results must say. */

export interface Opened {
  readonly workbook: Workbook;
  readonly undo?: () => Promise<void>;
  readonly close?: () => void;
}

export const HOSTS: readonly (readonly [string, () => Promise<Opened>])[] = [
  [
    "the grid",
    async () => {
      const { workbook, engine, close } = openHeadlessGrid(SHEET);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.book.getUnitId());
      const commands = engine.injector.get(ICommandService);
      return { workbook, close, undo: async () => void (await commands.executeCommand(UndoCommand.id)) };
    },
  ],
  [
    "a workbook file",
    async () => {
      const workbook = new FileWorkbook();
      await workbook.apply([{ do: "add sheet", sheet: SHEET }]);
      return { workbook };
    },
  ],
];

/** What the worksheet's VERDICT says of a row, for the columns Part, State, Chance and Verdict. */
export const saidOf = (header: readonly unknown[], row: readonly unknown[], language = "en") =>
  verdict([[...header], [...row]], [], [], [], [[language]])[0] as [string, string, number, string];
