import type { Injector, IRange, Workbook } from "@univerjs/core";
import { SetSheetTableMutation, TableManager } from "@univerjs/sheets-table";
import { overlaps } from "../../workbook/address";
import { WorkbookFault, type Area, type TableArea } from "../../workbook/port";
import { areaOf, rangeOf, sheetNamed } from "./areas";
import type { Place } from "./sheet-changes";

/** Tables of the grid, which have a header row and no totals. */
export function tablesIn(injector: Injector, workbook: Workbook, at: Area): TableArea[] {
  const sheet = sheetNamed(workbook, at.sheet);
  return injector
    .get(TableManager)
    .getTableList(workbook.getUnitId())
    .filter((table) => table.subUnitId === sheet.getSheetId())
    .map((table) => ({ name: table.name, at: areaOf(sheet.getName(), table.range as IRange), totals: false }))
    .filter((table) => overlaps(table.at, at));
}

export function widenTable({ injector, unit, workbook, changes }: Place, at: Area, name: string, by: number): void {
  const sheet = sheetNamed(workbook, at.sheet);
  const all = injector.get(TableManager).getTableList(unit);
  const table = all.find((one) => one.name.toUpperCase() === name.toUpperCase());
  if (!table) throw new WorkbookFault(`There is no table "${name}". Nothing was written.`, "missing");
  const wide = { ...at, columns: at.columns + by };
  const other = tablesIn(injector, workbook, wide).find((one) => one.name !== table.name);
  if (other) {
    throw new WorkbookFault(`The table "${other.name}" is beside "${name}". Nothing was written.`, "occupied");
  }
  const params = (area: Area) => ({
    unitId: unit,
    subUnitId: sheet.getSheetId(),
    tableId: table.id,
    config: { updateRange: { newRange: rangeOf(area) } },
  });
  changes.run(
    { id: SetSheetTableMutation.id, params: params(wide) },
    { id: SetSheetTableMutation.id, params: params(at) },
  );
}
