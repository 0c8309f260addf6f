import type { Cell } from "../../core/cell";
import { areaName } from "../../workbook/address";
import {
  WorkbookFault,
  type Area,
  type HostInfo,
  type ReadArea,
  type Step,
  type TableArea,
  type Workbook,
} from "../../workbook/port";
import { applyBatch } from "./batch";
import { readCell, readFormula } from "./cell-content";
import { excelHost, UNDO_GROUP, type ExcelHost } from "./excel-host";
import { ExcelEvents } from "./events";
import { workbookFault } from "./faults";
import { bands, MOST_CELLS, rectangles, sameSheet } from "./steps/scope";

/** The workbook that is open in Excel, through Office.js in few round trips. */
export class ExcelWorkbook implements Workbook {
  readonly host: HostInfo;
  readonly #events: ExcelEvents;

  /**
   * @param excel - Excel, or what stands for it in a test
   * @param report - Told when Excel does not let edits be followed
   */
  constructor(
    private readonly excel: ExcelHost = excelHost,
    report: (fault: WorkbookFault) => void = () => undefined,
  ) {
    this.host = { kind: "excel", tables: true, undo: excel.supports(UNDO_GROUP.set, UNDO_GROUP.version) };
    this.#events = new ExcelEvents((doing, batch) => this.#run(doing, batch), report);
  }

  sheetNames(): Promise<readonly string[]> {
    return this.#run("Reading the sheets", async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load("items/name");
      await context.sync();
      return worksheets.items.map((sheet) => sheet.name);
    });
  }

  activeSheet(): Promise<string> {
    return this.#run("Reading the sheets", async (context) => {
      const sheet = context.workbook.worksheets.getActiveWorksheet();
      sheet.load("name");
      await context.sync();
      return sheet.name;
    });
  }

  activateSheet(sheet: string): Promise<void> {
    return this.#run(`Going to "${sheet}"`, async (context) => {
      context.workbook.worksheets.getItem(sheet).activate();
      await context.sync();
    });
  }

  usedArea(sheet: string): Promise<Area> {
    return this.#run(`Reading "${sheet}"`, async (context) => {
      const used = context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true);
      used.load("rowIndex,columnIndex,rowCount,columnCount");
      await context.sync();
      if (used.isNullObject) return { sheet, row: 0, column: 0, rows: 0, columns: 0 };
      return {
        sheet,
        row: 0,
        column: 0,
        rows: used.rowIndex + used.rowCount,
        columns: used.columnIndex + used.columnCount,
      };
    });
  }

  /** One round trip; areas larger than Excel moves at once take one each 30,000 cells. */
  read(at: Area): Promise<ReadArea> {
    return this.#run(`Reading ${areaName(at)}`, async (context) => {
      const values: Cell[][] = [];
      const formulas: string[][] = [];
      if (at.rows === 0 || at.columns === 0) return { values, formulas };
      const sheet = context.workbook.worksheets.getItem(at.sheet);
      for (const band of bands(at, MOST_CELLS)) {
        const range = sheet.getRangeByIndexes(band.row, band.column, band.rows, band.columns);
        range.load("values,formulas,valueTypes");
        await context.sync();
        for (const [r, row] of range.values.entries()) {
          values.push(row.map((value, c) => readCell(value, range.valueTypes[r]![c])));
          formulas.push(row.map((value, c) => readFormula(range.formulas[r]![c], value)));
        }
      }
      return { values, formulas };
    });
  }

  mergedIn(at: Area): Promise<readonly Area[]> {
    return this.#run(`Reading ${areaName(at)}`, async (context) => {
      const range = context.workbook.worksheets
        .getItem(at.sheet)
        .getRangeByIndexes(at.row, at.column, at.rows, at.columns);
      const merged = range.getMergedAreasOrNullObject();
      merged.load("address");
      await context.sync();
      return merged.isNullObject ? [] : rectangles(merged.address).map((one) => ({ sheet: at.sheet, ...one }));
    });
  }

  tablesIn(at: Area): Promise<readonly TableArea[]> {
    return this.#run(`Reading ${areaName(at)}`, async (context) => {
      const sheet = context.workbook.worksheets.getItem(at.sheet);
      const tables = sheet.getRangeByIndexes(at.row, at.column, at.rows, at.columns).getTables(false);
      tables.load("items/name,items/showTotals,items/showHeaders");
      await context.sync();
      // Without a header row there is nothing to tell the columns by.
      const headed = tables.items.filter((table) => table.showHeaders);
      const ranges = headed.map((table) => table.getRange());
      for (const range of ranges) range.load("rowIndex,columnIndex,rowCount,columnCount");
      if (ranges.length > 0) await context.sync();
      return headed.map(({ name, showTotals }, i) => {
        const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = ranges[i]!;
        return { name, totals: showTotals, at: { sheet: at.sheet, row, column, rows, columns } };
      });
    });
  }

  apply(batch: readonly Step[]): Promise<void> {
    if (batch.length === 0) return Promise.resolve();
    return this.#run("Writing to the workbook", (context) => applyBatch(context, batch), {
      ...(this.host.undo ? { mergeUndoGroup: true } : {}),
    }).catch(async (fault: WorkbookFault) => {
      throw (await this.#missingSheet(fault, batch)) ?? fault;
    });
  }

  selection(): Promise<Area> {
    const of = (range: (context: Excel.RequestContext) => Excel.Range) =>
      this.#run("Reading the selection", async (context) => {
        const selected = range(context);
        selected.load("rowIndex,columnIndex,rowCount,columnCount");
        selected.worksheet.load("name");
        await context.sync();
        return {
          sheet: selected.worksheet.name,
          row: selected.rowIndex,
          column: selected.columnIndex,
          rows: selected.rowCount,
          columns: selected.columnCount,
        };
      });
    // Several areas, or a chart, have no range of their own: then the active cell counts.
    return of((context) => context.workbook.getSelectedRange()).catch(() =>
      of((context) => context.workbook.getActiveCell()),
    );
  }

  select(at: Area): Promise<void> {
    return this.#run(`Going to ${areaName(at)}`, async (context) => {
      const sheet = context.workbook.worksheets.getItem(at.sheet);
      sheet.activate();
      sheet.getRangeByIndexes(at.row, at.column, at.rows, at.columns).select();
      await context.sync();
    });
  }

  onEdit(listener: (change: Area) => void): () => void {
    return this.#events.onEdit(listener);
  }

  onCalculated(listener: () => void): () => void {
    return this.#events.onCalculated(listener);
  }

  onSelection(listener: (at: Area) => void): () => void {
    return this.#events.onSelection(listener);
  }

  /** Excel does not say which sheet it did not find. */
  async #missingSheet(fault: WorkbookFault, batch: readonly Step[]): Promise<WorkbookFault | undefined> {
    if (fault.reason !== "missing") return undefined;
    const there = await this.sheetNames().catch(() => []);
    const named = batch.map((step) => ("at" in step ? step.at.sheet : step.sheet));
    const known = [...there, ...batch.flatMap((step) => (step.do === "add sheet" ? [step.sheet] : []))];
    const gone = named.find((name) => !known.some((one) => sameSheet(one, name)));
    return gone === undefined
      ? undefined
      : new WorkbookFault(`There is no sheet "${gone}" in this workbook. Nothing was changed.`, "missing");
  }

  async #run<T>(
    doing: string,
    batch: (context: Excel.RequestContext) => Promise<T>,
    options: Excel.RunOptions = {},
  ): Promise<T> {
    try {
      // While the user types into a cell Excel takes no requests: they wait until the cell is left.
      return await this.excel.run({ delayForCellEdit: true, ...options }, batch);
    } catch (error) {
      throw workbookFault(error, doing);
    }
  }
}
