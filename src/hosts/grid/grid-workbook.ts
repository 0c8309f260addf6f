import {
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type ICellData,
  type Injector,
  type Workbook as GridBook,
  type Worksheet,
} from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import {
  SetRangeValuesMutation,
  SetSelectionsOperation,
  SetWorksheetActiveOperation,
  SheetsSelectionsService,
  type ISetRangeValuesMutationParams,
} from "@univerjs/sheets";
import { isCellError } from "../../core/cell";
import type { Area, HostInfo, ReadArea, Step, TableArea, Workbook } from "../../workbook/port";
import { CellReader } from "../engine/read-cells";
import { applyBatch } from "./apply-batch";
import { areaOf, mergesIn, rangeOf, sheetNamed } from "./areas";
import { tablesIn } from "./tables";
import { keepForFiles } from "./kept-for-files";
import { Settling } from "./settling";

/** The workbook of the local grid, in the page or without a screen, behind the common door. */
export class GridWorkbook implements Workbook {
  readonly host: HostInfo = { kind: "grid", tables: true, undo: true };
  private readonly settling: Settling;
  private readonly commands: ICommandService;
  private applying = false;

  constructor(
    private readonly injector: Injector,
    private readonly unit: string,
  ) {
    this.settling = new Settling(injector);
    this.commands = injector.get(ICommandService);
    keepForFiles(injector, unit, () => this.book());
  }

  sheetNames(): Promise<readonly string[]> {
    return Promise.resolve(
      this.book()
        .getSheets()
        .map((sheet) => sheet.getName()),
    );
  }

  activeSheet(): Promise<string> {
    return Promise.resolve(this.active().getName());
  }

  async activateSheet(sheet: string): Promise<void> {
    await this.show(sheetNamed(this.book(), sheet).getSheetId());
  }

  async usedArea(sheet: string): Promise<Area> {
    await this.settling.settled();
    const worksheet = sheetNamed(this.book(), sheet);
    const reader = this.reader(worksheet);
    let [rows, columns] = [0, 0];
    reader.eachFilled((row, column) => {
      rows = Math.max(rows, row + 1);
      columns = Math.max(columns, column + 1);
    });
    return { sheet: worksheet.getName(), row: 0, column: 0, rows, columns };
  }

  async read(at: Area): Promise<ReadArea> {
    await this.settling.settled();
    return this.reader(sheetNamed(this.book(), at.sheet)).block(at);
  }

  async mergedIn(at: Area): Promise<readonly Area[]> {
    return mergesIn(sheetNamed(this.book(), at.sheet), at);
  }

  async tablesIn(at: Area): Promise<readonly TableArea[]> {
    return tablesIn(this.injector, this.book(), at);
  }

  async apply(batch: readonly Step[]): Promise<void> {
    const shown = this.active().getSheetId();
    this.applying = true;
    try {
      applyBatch(this.injector, this.book(), batch, (sheet, row, column) => {
        const value = this.reader(sheet).value(row, column);
        return isCellError(value) ? value.error : String(value);
      });
    } finally {
      this.applying = false;
    }
    // The page turns to a sheet that is added; what the user looks at is for the user to choose.
    if (this.active().getSheetId() !== shown) await this.show(shown);
  }

  async selection(): Promise<Area> {
    const last = this.injector.get(SheetsSelectionsService).getCurrentLastSelection();
    const sheet = this.active();
    if (!last) return { sheet: sheet.getName(), row: 0, column: 0, rows: 1, columns: 1 };
    return this.visible(sheet, last.range);
  }

  async select(at: Area): Promise<void> {
    const sheet = sheetNamed(this.book(), at.sheet);
    await this.activateSheet(at.sheet);
    const range = rangeOf(at);
    const primary = { actualRow: at.row, actualColumn: at.column, ...range, isMerged: false, isMergedMainCell: false };
    await this.commands.executeCommand(SetSelectionsOperation.id, {
      unitId: this.unit,
      subUnitId: sheet.getSheetId(),
      selections: [{ range, primary, style: null }],
    });
    if (this.commands.hasCommand(REVEAL)) await this.commands.executeCommand(REVEAL, { range });
  }

  onEdit(listener: (change: Area) => void): () => void {
    const listening = this.commands.onCommandExecuted(({ id, params }, options) => {
      if (id !== SetRangeValuesMutation.id || this.applying || options?.onlyLocal || options?.fromFormula) return;
      const { unitId, subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
      const sheet = unitId === this.unit ? this.book().getSheetBySheetId(subUnitId) : undefined;
      const change = sheet && editedArea(sheet.getName(), cellValue);
      if (change) listener(change);
    });
    return () => listening.dispose();
  }

  onCalculated(listener: () => void): () => void {
    return this.settling.onCalculated(listener);
  }

  onSelection(listener: (at: Area) => void): () => void {
    const watching = this.injector.get(SheetsSelectionsService).selectionChanged$.subscribe((selections) => {
      const last = selections?.at(-1);
      if (last) listener(this.visible(this.active(), last.range));
    });
    return () => watching.unsubscribe();
  }

  private async show(subUnitId: string): Promise<void> {
    await this.commands.executeCommand(SetWorksheetActiveOperation.id, { unitId: this.unit, subUnitId });
  }

  private book(): GridBook {
    return this.injector.get(IUniverInstanceService).getUnit<GridBook>(this.unit, UniverInstanceType.UNIVER_SHEET)!;
  }

  private active(): Worksheet {
    return this.book().getActiveSheet() ?? this.book().getSheets()[0]!;
  }

  private reader(sheet: Worksheet): CellReader {
    return new CellReader(this.book(), sheet, this.injector.get(FormulaDataModel));
  }

  /** A selection of whole rows or columns has no end; what of it is on the sheet does. */
  private visible(
    sheet: Worksheet,
    {
      startRow,
      endRow,
      startColumn,
      endColumn,
    }: { startRow: number; endRow: number; startColumn: number; endColumn: number },
  ): Area {
    const first = {
      startRow: Number.isNaN(startRow) ? 0 : startRow,
      startColumn: Number.isNaN(startColumn) ? 0 : startColumn,
    };
    const last = {
      endRow: Number.isNaN(endRow) ? sheet.getRowCount() - 1 : Math.min(endRow, sheet.getRowCount() - 1),
      endColumn: Number.isNaN(endColumn) ? sheet.getColumnCount() - 1 : Math.min(endColumn, sheet.getColumnCount() - 1),
    };
    return areaOf(sheet.getName(), { ...first, ...last });
  }
}

/** Brings a range into view; only the page has it. */
const REVEAL = "sheet.command.scroll-to-range";

/** What of a cell is content; a cell that is removed loses it. */
const CONTENT = ["v", "f", "si", "p"] as const;

/** The smallest area around the cells whose content changed; a change of looks alone is no edit. */
function editedArea(sheet: string, cells: ISetRangeValuesMutationParams["cellValue"]): Area | undefined {
  let area: { startRow: number; endRow: number; startColumn: number; endColumn: number } | undefined;
  for (const [rowKey, line] of Object.entries(cells ?? {})) {
    for (const [columnKey, cell] of Object.entries(line ?? {})) {
      if (cell && !CONTENT.some((key) => (cell as ICellData)[key] !== undefined)) continue;
      const [row, column] = [Number(rowKey), Number(columnKey)];
      area = {
        startRow: Math.min(area?.startRow ?? row, row),
        endRow: Math.max(area?.endRow ?? row, row),
        startColumn: Math.min(area?.startColumn ?? column, column),
        endColumn: Math.max(area?.endColumn ?? column, column),
      };
    }
  }
  return area && areaOf(sheet, area);
}
