import {
  UniverSheetsConditionalFormattingPlugin,
  ConditionalFormattingViewModel,
} from "@univerjs/sheets-conditional-formatting";
import { UniverSheetsDataValidationPlugin } from "@univerjs/sheets-data-validation";
import { UniverSheetsNumfmtPlugin } from "@univerjs/sheets-numfmt";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";
import { freshUnit } from "../engine/fresh-unit";
import { openHeadless, type Headless, type HeadlessOptions } from "../engine/headless";
import { GridWorkbook } from "./grid-workbook";
import { NEW_SHEET } from "./new-sheet";

/** The grid's workbook without a screen: what the page has, for tests and for the command line. */
export interface HeadlessGrid {
  readonly workbook: GridWorkbook;
  readonly engine: Headless;
  close(): void;
}

/** Opens a workbook with one empty sheet. */
export function openHeadlessGrid(firstSheet = "Sheet1", options: Omit<HeadlessOptions, "plugins"> = {}): HeadlessGrid {
  const unit = freshUnit();
  const engine = openHeadless(
    {
      id: unit,
      sheetOrder: ["first"],
      sheets: { first: { ...NEW_SHEET, id: "first", name: firstSheet } },
    },
    {
      ...options,
      plugins: [
        UniverSheetsNumfmtPlugin,
        UniverSheetsDataValidationPlugin,
        UniverSheetsConditionalFormattingPlugin,
        UniverSheetsTablePlugin,
      ],
    },
  );
  const workbook = new GridWorkbook(engine.injector, unit);
  return {
    workbook,
    engine,
    close: () => {
      // Its timer outlives the engine otherwise and would keep the program from ending.
      engine.injector.get(ConditionalFormattingViewModel).dispose();
      engine.close();
    },
  };
}
