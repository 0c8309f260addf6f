import {
  type ICellData,
  type Injector,
  type IRange,
  type IStyleData,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory } from "@univerjs/sheets";
import { TableManager } from "@univerjs/sheets-table";
import { areaName, overlaps } from "../../workbook/address";
import { WorkbookFault, type Area, type ColourRule, type Step } from "../../workbook/port";
import { areaOf, mergesIn, rangeOf, sheetNamed } from "./areas";
import { contentOf, styleOf } from "./cell-data";
import { Changes } from "./changes";
import { keepChart, keepPrint } from "./kept-for-files";
import { addTable, colour, nameArea, validate } from "./rule-changes";
import { widenTable } from "./tables";
import { addSheet, freeze, growTo, merge, setColumnWidth, setRowHeight, type Place } from "./sheet-changes";

/** The text of a cell as it is now, for table headers. */
type TextAt = (sheet: Worksheet, row: number, column: number) => string;

/**
 * Carries out a batch, all of it or nothing, as one undo step. Sheets come first and cells next, in
 * one write a sheet, so that everything else finds them filled; among themselves the steps keep
 * their order.
 */
export function applyBatch(injector: Injector, workbook: Workbook, batch: readonly Step[], textAt: TextAt): void {
  const unit = workbook.getUnitId();
  const changes = new Changes(injector, unit);
  const place: Place = { injector, unit, workbook, changes };
  try {
    for (const step of batch) if (step.do === "add sheet") addNamedSheet(place, step.sheet);
    writeCells(place, batch);
    colourAlike(place, batch);
    for (const step of batch) carryOut(place, step, textAt);
  } catch (error) {
    changes.takeBack();
    if (error instanceof WorkbookFault) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new WorkbookFault(
      `The grid could not make a change (${reason}). Nothing was written; please report it.`,
      "host",
    );
  }
  changes.commit();
}

function addNamedSheet(place: Place, name: string): void {
  const taken = place.workbook.getSheets().some((sheet) => sheet.getName().toUpperCase() === name.toUpperCase());
  if (taken)
    throw new WorkbookFault(
      `There already is a sheet "${name}". Nothing was written; choose another name.`,
      "occupied",
    );
  addSheet(place, name);
}

/** Contents and looks of all cells of a batch, one write for each sheet. */
function writeCells(place: Place, batch: readonly Step[]): void {
  const drafts = new Map<Worksheet, SheetDraft>();
  const draftOf = (name: string) => {
    const sheet = sheetNamed(place.workbook, name);
    let draft = drafts.get(sheet);
    if (!draft) drafts.set(sheet, (draft = new SheetDraft()));
    return draft;
  };
  for (const step of batch) {
    if (step.do === "write") {
      refuseRagged(step.at, step.values);
      const draft = draftOf(step.at.sheet);
      step.values.forEach((line, r) =>
        line.forEach((write, c) => draft.put(step.at.row + r, step.at.column + c, contentOf(write))),
      );
    } else if (step.do === "format") {
      const draft = draftOf(step.at.sheet);
      const style = styleOf(step.format);
      for (let r = 0; r < step.at.rows; r++)
        for (let c = 0; c < step.at.columns; c++) draft.dress(step.at.row + r, step.at.column + c, style);
    }
  }
  for (const [sheet, draft] of drafts) {
    if (draft.rows === 0) continue;
    growTo(place, sheet, draft.rows, draft.columns);
    const params = { unitId: place.unit, subUnitId: sheet.getSheetId(), cellValue: draft.cells };
    const undo = SetRangeValuesUndoMutationFactory(place.injector, params);
    place.changes.run({ id: SetRangeValuesMutation.id, params }, { id: SetRangeValuesMutation.id, params: undo });
  }
}

class SheetDraft {
  readonly cells: Record<number, Record<number, ICellData>> = {};
  rows = 0;
  columns = 0;

  put(row: number, column: number, content: ICellData | undefined): void {
    if (content) Object.assign(this.cell(row, column), content);
  }

  dress(row: number, column: number, style: IStyleData): void {
    const cell = this.cell(row, column);
    const worn = (cell.s ?? {}) as IStyleData;
    const border = style.bd && worn.bd ? { ...worn.bd, ...style.bd } : (style.bd ?? worn.bd);
    cell.s = { ...worn, ...style, ...(border ? { bd: border } : {}) };
  }

  private cell(row: number, column: number): ICellData {
    this.rows = Math.max(this.rows, row + 1);
    this.columns = Math.max(this.columns, column + 1);
    return ((this.cells[row] ??= {})[column] ??= {});
  }
}

function refuseRagged(at: Area, values: readonly (readonly unknown[])[]): void {
  if (values.length === at.rows && values.every((line) => line.length === at.columns)) return;
  throw new WorkbookFault(
    `The values for ${areaName(at)} do not have its shape. Nothing was written; please report it.`,
    "host",
  );
}

/** Colour rules that differ in nothing but their area are made as one. */
function colourAlike(place: Place, batch: readonly Step[]): void {
  const alike = new Map<string, { sheet: Worksheet; rule: ColourRule; ranges: IRange[] }>();
  for (const step of batch) {
    if (step.do !== "colour rule") continue;
    const sheet = sheetNamed(place.workbook, step.at.sheet);
    const key = JSON.stringify([sheet.getSheetId(), step.rule.words, step.rule.decidedBy ?? null]);
    const group = alike.get(key) ?? { sheet, rule: step.rule, ranges: [] };
    group.ranges.push(rangeOf(step.at));
    alike.set(key, group);
  }
  for (const { sheet, rule, ranges } of alike.values()) colour(place, sheet, ranges, rule);
}

function carryOut(place: Place, step: Step, textAt: TextAt): void {
  const { workbook } = place;
  switch (step.do) {
    case "add sheet":
    case "write":
    case "format":
    case "colour rule":
      return;
    case "print":
      return keepPrint(place.changes, sheetNamed(workbook, step.at.sheet), step.at, step.setup);
    case "validate":
      return validate(place, sheetNamed(workbook, step.at.sheet), rangeOf(step.at), step.rule);
    case "merge":
      return mergeFree(place, step.at);
    case "column width":
      return setColumnWidth(place, sheetNamed(workbook, step.sheet), step.column, step.characters);
    case "row height":
      return setRowHeight(place, sheetNamed(workbook, step.sheet), step.row, step.points);
    case "freeze":
      return freeze(place, sheetNamed(workbook, step.sheet), step.rows, step.columns);
    case "table":
      return addFreeTable(place, step.at, step.name, textAt);
    case "widen table":
      return widenTable(place, step.at, step.name, step.by);
    case "name":
      return nameArea(place, step.name, step.at);
    case "chart":
      return keepChart(place.changes, sheetNamed(workbook, step.sheet), step.chart, (name) =>
        sheetNamed(workbook, name).getSheetId(),
      );
  }
}

function mergeFree(place: Place, at: Area): void {
  const sheet = sheetNamed(place.workbook, at.sheet);
  const clash = mergesIn(sheet, at);
  if (clash.length === 1 && clash.every((merged) => areaName(merged) === areaName({ ...at, sheet: sheet.getName() })))
    return;
  if (clash.length > 0) {
    throw new WorkbookFault(
      `Merged cells are in the way: ${clash.map(areaName).join(", ")}. Nothing was written; unmerge them first.`,
      "merged",
    );
  }
  merge(place, sheet, rangeOf(at));
}

function addFreeTable(place: Place, at: Area, name: string, textAt: TextAt): void {
  const sheet = sheetNamed(place.workbook, at.sheet);
  const tables = place.injector.get(TableManager);
  for (const table of tables.getTableList(place.unit)) {
    if (table.name.toUpperCase() === name.toUpperCase()) {
      throw new WorkbookFault(
        `There already is a table "${name}". Nothing was written; choose another name.`,
        "occupied",
      );
    }
    const area = areaOf(sheet.getName(), table.range as IRange);
    if (table.subUnitId === sheet.getSheetId() && overlaps(area, at)) {
      throw new WorkbookFault(
        `The table "${table.name}" is in the way at ${areaName(area)}. Nothing was written.`,
        "occupied",
      );
    }
  }
  const header = Array.from({ length: at.columns }, (_, c) => textAt(sheet, at.row, at.column + c));
  addTable(place, sheet, rangeOf(at), name, header);
}
