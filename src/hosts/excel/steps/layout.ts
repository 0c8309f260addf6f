import { areaName, fixedRange, overlaps } from "../../../workbook/address";
import { MARGINS } from "../../../workbook/margins";
import { WorkbookFault, type Area, type PrintSetup } from "../../../workbook/port";
import { meet, type Prepared, type Scope } from "./scope";

/** Merging keeps the first cell only, so the others must be blank. */
export function prepareMerge(scope: Scope, at: Area): Prepared {
  const inBatch = scope.planned.merges.find((one) => meet(one, at));
  scope.planned.merges.push(at);
  const twice = inBatch !== undefined && fixedRange(inBatch) === fixedRange(at);
  const across = inBatch && !twice ? mergedFault(inBatch) : undefined;
  const carryOut = () => scope.range(at).merge();
  if (scope.isNew(at.sheet)) return { weight: 1, carryOut: twice ? () => undefined : carryOut, refusal: () => across };

  const range = scope.range(at);
  range.load("values");
  scope.askMerged(at.sheet);
  scope.askProtection(at.sheet);
  const there = () => scope.mergedIn(at).some((one) => fixedRange(one) === fixedRange(at));
  return {
    weight: at.rows * at.columns,
    carryOut: () => {
      if (!twice && !there()) carryOut();
    },
    refusal: () =>
      across ?? scope.protectedFault(at.sheet) ?? (there() ? undefined : mergeRefusal(scope, at, range.values)),
    putBack: () => {
      if (!there()) scope.range(at).unmerge();
    },
  };
}

function mergedFault(other: Area): WorkbookFault {
  return new WorkbookFault(`${areaName(other)} is merged already. Unmerge it or choose another place.`, "merged");
}

function mergeRefusal(scope: Scope, at: Area, values: readonly (readonly unknown[])[]): WorkbookFault | undefined {
  const other = scope.mergedIn(at).find((one) => overlaps(one, at));
  if (other) return mergedFault({ sheet: at.sheet, ...other });
  const filled = values.some((row, r) => row.some((value, c) => (r > 0 || c > 0) && value !== ""));
  if (!filled) return undefined;
  return new WorkbookFault(`Merging ${areaName(at)} would lose what its cells hold. Choose another place.`, "occupied");
}

/** Points of a column that shows so many characters of the workbook's usual font (7 pixels each). */
function columnPoints(characters: number): number {
  return (Math.trunc(characters * 7 + 5) * 72) / 96;
}

export function prepareColumnWidth(scope: Scope, sheet: string, column: number, characters: number): Prepared {
  const cell = { sheet, row: 0, column, rows: 1, columns: 1 };
  const carryOut = () => {
    scope.range(cell).format.columnWidth = columnPoints(characters);
  };
  if (scope.isNew(sheet)) return { weight: 1, carryOut };
  const before = scope.range(cell).format;
  before.load("columnWidth");
  scope.askProtection(sheet);
  return {
    weight: 1,
    carryOut,
    refusal: () => scope.protectedFault(sheet),
    putBack: () => {
      scope.range(cell).format.columnWidth = before.columnWidth;
    },
  };
}

export function prepareRowHeight(scope: Scope, sheet: string, row: number, points: number): Prepared {
  const cell = { sheet, row, column: 0, rows: 1, columns: 1 };
  const carryOut = () => {
    scope.range(cell).format.rowHeight = points;
  };
  if (scope.isNew(sheet)) return { weight: 1, carryOut };
  const before = scope.range(cell).format;
  before.load("rowHeight");
  scope.askProtection(sheet);
  return {
    weight: 1,
    carryOut,
    refusal: () => scope.protectedFault(sheet),
    putBack: () => {
      scope.range(cell).format.rowHeight = before.rowHeight;
    },
  };
}

export function prepareFreeze(scope: Scope, sheet: string, rows: number, columns: number): Prepared {
  const freeze = (r: number, c: number) => {
    const { freezePanes } = scope.sheet(sheet);
    if (r > 0 && c > 0) freezePanes.freezeAt(scope.range({ sheet, row: 0, column: 0, rows: r, columns: c }));
    else if (r > 0) freezePanes.freezeRows(r);
    else if (c > 0) freezePanes.freezeColumns(c);
    else freezePanes.unfreeze();
  };
  const carryOut = () => freeze(rows, columns);
  if (scope.isNew(sheet)) return { weight: 1, carryOut };
  const before = scope.sheet(sheet).freezePanes.getLocationOrNullObject();
  before.load("rowCount,columnCount");
  scope.askProtection(sheet);
  // Frozen rows alone are reported as whole rows, and columns likewise.
  const some = (count: number, whole: number) => (count >= whole ? 0 : count);
  return {
    weight: 1,
    carryOut,
    refusal: () => scope.protectedFault(sheet),
    putBack: () => {
      if (before.isNullObject) freeze(0, 0);
      else freeze(some(before.rowCount, 1_048_576), some(before.columnCount, 16_384));
    },
  };
}

/** Excel keeps print area and title rows as names of the sheet, which is how they are taken away. */
const PRINT_NAMES = ["Print_Area", "Print_Titles"] as const;
const SIDES = ["top", "bottom", "left", "right", "header", "footer"] as const;
const POINTS_AN_INCH = 72;

export function preparePrint(scope: Scope, at: Area, setup: PrintSetup): Prepared {
  const carryOut = () => setUpPrint(scope.sheet(at.sheet).pageLayout, at, setup);
  if (scope.isNew(at.sheet)) return { weight: 1, carryOut };

  const layout = scope.sheet(at.sheet).pageLayout;
  layout.load(["orientation", "zoom", ...SIDES.map((side) => `${side}Margin`)].join(","));
  const footers = layout.headersFooters.defaultForAllPages;
  footers.load("centerFooter");
  const area = layout.getPrintAreaOrNullObject();
  area.load("address");
  const titles = layout.getPrintTitleRowsOrNullObject();
  titles.load("address");
  scope.askProtection(at.sheet);
  let names: Excel.NamedItem[] = [];
  return {
    weight: 1,
    carryOut,
    refusal: () => scope.protectedFault(at.sheet),
    lookBack: () => {
      names = PRINT_NAMES.map((name) => scope.sheet(at.sheet).names.getItemOrNullObject(name));
      names.forEach((name) => name.load("name"));
    },
    putBack: () => {
      const again = scope.sheet(at.sheet).pageLayout;
      again.orientation = layout.orientation;
      again.zoom = layout.zoom;
      for (const side of SIDES) again[`${side}Margin`] = layout[`${side}Margin`];
      again.headersFooters.defaultForAllPages.centerFooter = footers.centerFooter;
      for (const [i, old] of [area, titles].entries())
        if (old.isNullObject && !names[i]!.isNullObject) names[i]!.delete();
      if (!area.isNullObject) again.setPrintArea(withoutSheet(area.address));
      if (!titles.isNullObject) again.setPrintTitleRows(withoutSheet(titles.address));
    },
  };
}

function setUpPrint(layout: Excel.PageLayout, at: Area, setup: PrintSetup): void {
  layout.orientation = setup.orientation === "landscape" ? "Landscape" : "Portrait";
  layout.zoom = {
    horizontalFitToPages: setup.fitWidthPages,
    ...(setup.fitHeightPages === undefined ? {} : { verticalFitToPages: setup.fitHeightPages }),
  };
  for (const side of SIDES) layout[`${side}Margin`] = POINTS_AN_INCH * MARGINS[side];
  layout.setPrintArea(fixedRange(at));
  if (setup.titleRows) layout.setPrintTitleRows(`$1:$${setup.titleRows}`);
  if (setup.footer !== undefined) layout.headersFooters.defaultForAllPages.centerFooter = setup.footer;
}

/** `'Old jobs'!$A$1:$B$2,'Old jobs'!$D$4` without its sheet. */
function withoutSheet(address: string): string {
  return address.replaceAll(/(^|,)\s*(?:'(?:[^']|'')*'|[^'!,]*)!/gu, "$1");
}
