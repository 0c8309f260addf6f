import {
  BooleanNumber,
  mergeWorksheetSnapshotWithDefault,
  type Injector,
  type IRange,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import {
  AddMergeUndoMutationFactory,
  AddWorksheetMergeMutation,
  InsertSheetMutation,
  InsertSheetUndoMutationFactory,
  RemoveSheetMutation,
  RemoveWorksheetMergeMutation,
  SetFrozenMutation,
  SetFrozenMutationFactory,
  SetWorksheetColumnCountMutation,
  SetWorksheetColumnCountUndoMutationFactory,
  SetWorksheetColWidthMutation,
  SetWorksheetColWidthMutationFactory,
  SetWorksheetRowCountMutation,
  SetWorksheetRowCountUndoMutationFactory,
  SetWorksheetRowHeightMutation,
  SetWorksheetRowHeightMutationFactory,
  SetWorksheetRowIsAutoHeightMutation,
  SetWorksheetRowIsAutoHeightMutationFactory,
} from "@univerjs/sheets";
import type { Changes } from "./changes";
import { columnPixels, rowPixels } from "./measures";
import { NEW_SHEET } from "./new-sheet";

/** What a change needs to know of where it is made. */
export interface Place {
  readonly injector: Injector;
  readonly unit: string;
  readonly workbook: Workbook;
  readonly changes: Changes;
}

export function addSheet({ injector, unit, workbook, changes }: Place, name: string): void {
  const sheet = mergeWorksheetSnapshotWithDefault({ ...NEW_SHEET, id: freeSheetId(workbook), name });
  const params = { index: workbook.getSheetSize(), sheet, unitId: unit };
  changes.run(
    { id: InsertSheetMutation.id, params },
    { id: RemoveSheetMutation.id, params: InsertSheetUndoMutationFactory(injector, params) },
  );
}

function freeSheetId(workbook: Workbook): string {
  for (let n = workbook.getSheetSize() + 1; ; n++) {
    if (!workbook.getSheetBySheetId(`sheet-${n}`)) return `sheet-${n}`;
  }
}

/** Makes room for cells beyond the sheet's edge. */
export function growTo({ injector, unit, changes }: Place, sheet: Worksheet, rows: number, columns: number): void {
  const target = { unitId: unit, subUnitId: sheet.getSheetId() };
  if (rows > sheet.getRowCount()) {
    const params = { ...target, rowCount: rows };
    changes.run(
      { id: SetWorksheetRowCountMutation.id, params },
      { id: SetWorksheetRowCountMutation.id, params: SetWorksheetRowCountUndoMutationFactory(injector, params) },
    );
  }
  if (columns > sheet.getColumnCount()) {
    const params = { ...target, columnCount: columns };
    changes.run(
      { id: SetWorksheetColumnCountMutation.id, params },
      { id: SetWorksheetColumnCountMutation.id, params: SetWorksheetColumnCountUndoMutationFactory(injector, params) },
    );
  }
}

export function merge({ injector, unit, changes }: Place, sheet: Worksheet, range: IRange): void {
  const params = { unitId: unit, subUnitId: sheet.getSheetId(), ranges: [range] };
  changes.run(
    { id: AddWorksheetMergeMutation.id, params },
    { id: RemoveWorksheetMergeMutation.id, params: AddMergeUndoMutationFactory(injector, params) },
  );
}

export function setColumnWidth({ unit, changes }: Place, sheet: Worksheet, column: number, characters: number): void {
  const range = { startRow: 0, endRow: sheet.getRowCount() - 1, startColumn: column, endColumn: column };
  const params = {
    unitId: unit,
    subUnitId: sheet.getSheetId(),
    ranges: [range],
    colWidth: columnPixels(characters),
  };
  changes.run(
    { id: SetWorksheetColWidthMutation.id, params },
    { id: SetWorksheetColWidthMutation.id, params: SetWorksheetColWidthMutationFactory(params, sheet) },
  );
}

export function setRowHeight({ unit, changes }: Place, sheet: Worksheet, row: number, points: number): void {
  const range = { startRow: row, endRow: row, startColumn: 0, endColumn: sheet.getColumnCount() - 1 };
  const target = { unitId: unit, subUnitId: sheet.getSheetId(), ranges: [range] };
  const height = { ...target, rowHeight: rowPixels(points) };
  changes.run(
    { id: SetWorksheetRowHeightMutation.id, params: height },
    { id: SetWorksheetRowHeightMutation.id, params: SetWorksheetRowHeightMutationFactory(height, sheet) },
  );
  const fixed = { ...target, autoHeightInfo: BooleanNumber.FALSE };
  changes.run(
    { id: SetWorksheetRowIsAutoHeightMutation.id, params: fixed },
    { id: SetWorksheetRowIsAutoHeightMutation.id, params: SetWorksheetRowIsAutoHeightMutationFactory(fixed, sheet) },
  );
}

export function freeze({ injector, unit, changes }: Place, sheet: Worksheet, rows: number, columns: number): void {
  // The grid counts -1 as "nothing frozen" in that direction.
  const start = (count: number) => (count > 0 ? count : -1);
  const params = {
    unitId: unit,
    subUnitId: sheet.getSheetId(),
    startRow: start(rows),
    startColumn: start(columns),
    ySplit: rows,
    xSplit: columns,
  };
  changes.run(
    { id: SetFrozenMutation.id, params },
    { id: SetFrozenMutation.id, params: SetFrozenMutationFactory(injector, params) },
  );
}
