import { areaName, cellName, parseRange, rangeName } from "../../../workbook/address";
import { WorkbookFault, type Area, type ChartPlan } from "../../../workbook/port";
import { cellAgain } from "../cell-content";
import { keepLooks } from "./format";
import { meet, type Prepared, type Scope } from "./scope";

export function prepareSheet(scope: Scope, name: string): Prepared {
  const { worksheets } = scope.context.workbook;
  const before = worksheets.getItemOrNullObject(name);
  const twice = scope.addsTwice(name);
  let after = before;
  return {
    weight: 1,
    carryOut: () => void worksheets.add(name),
    refusal: () =>
      before.isNullObject && !twice
        ? undefined
        : new WorkbookFault(`There is a sheet "${name}" already. Rename one of them and try again.`, "occupied"),
    lookBack: () => {
      after = worksheets.getItemOrNullObject(name);
    },
    putBack: () => {
      if (!after.isNullObject) after.delete();
    },
  };
}

/** A table keeps its place when it is made again; another of the same name, or one in the way, stops it. */
export function prepareTable(scope: Scope, at: Area, name: string): Prepared {
  const { workbook } = scope.context;
  const byName = workbook.tables.getItemOrNullObject(name);
  const asName = workbook.names.getItemOrNullObject(name);
  let after = byName;
  const carryOut = () => {
    const table = workbook.tables.add(areaName({ ...at }), true);
    table.name = name;
    table.style = "TableStyleLight1";
  };
  const lookBack = () => {
    after = workbook.tables.getItemOrNullObject(name);
  };
  const { tables: planned, names: plannedNames } = scope.planned;
  const overPlanned = planned.find((one) => meet(one.at, at));
  const takenByPlan =
    planned.some((one) => one.name.toUpperCase() === name.toUpperCase()) || plannedNames.has(name.toUpperCase());
  planned.push({ at, name });
  const taken = () => (byName.isNullObject && asName.isNullObject && !takenByPlan ? undefined : takenFault(name));
  const inBatch = () => (overPlanned ? overFault(at, overPlanned.name) : undefined);
  // On a new sheet the table goes with the sheet.
  if (scope.isNew(at.sheet)) return { weight: 1, carryOut, refusal: () => inBatch() ?? taken() };

  const range = scope.range(at);
  range.load("values,formulas,valueTypes");
  const inTheWay = range.getTables(false);
  inTheWay.load("items/name");
  scope.askMerged(at.sheet);
  scope.askProtection(at.sheet);
  const looks = keepLooks(scope, at);
  const made = () => inTheWay.items.length === 1 && inTheWay.items[0]!.name.toUpperCase() === name.toUpperCase();
  let here: Excel.TableScopedCollection | undefined;
  return {
    weight: at.rows * at.columns * 10,
    carryOut: () => {
      if (!made()) carryOut();
    },
    refusal: () => {
      const protectedFault = scope.protectedFault(at.sheet);
      if (protectedFault || made()) return protectedFault;
      if (inTheWay.items.length > 0) return overFault(at, inTheWay.items[0]!.name);
      const merged = scope.mergedIn(at)[0];
      if (merged)
        return new WorkbookFault(
          `A table cannot hold the merged cells ${areaName({ sheet: at.sheet, ...merged })}. Unmerge them and try again.`,
          "merged",
        );
      return inBatch() ?? taken();
    },
    lookBack: () => {
      lookBack();
      here = scope.range(at).getTables(false);
      here.load("items/name");
    },
    putBack: () => {
      if (made()) return;
      // Found by its name, or by its place when it failed before it was named.
      if (!after.isNullObject) after.convertToRange();
      else here?.items.forEach((table) => table.convertToRange());
      looks();
      scope.range(at).formulas = range.values.map((row, r) =>
        row.map((value, c) => cellAgain(value, range.formulas[r]![c], range.valueTypes[r]![c])),
      );
    },
  };
}

function takenFault(name: string): WorkbookFault {
  return new WorkbookFault(
    `The name ${name} is taken in this workbook. Rename that table or range (Formulas, Name Manager) and try again.`,
    "occupied",
  );
}

function overFault(at: Area, table: string): WorkbookFault {
  return new WorkbookFault(`${areaName(at)} touches the table ${table}. Choose another place.`, "occupied");
}

export function prepareName(scope: Scope, name: string, at: Area): Prepared {
  const { names } = scope.context.workbook;
  const before = names.getItemOrNullObject(name);
  before.load("formula");
  const asTable = scope.context.workbook.tables.getItemOrNullObject(name);
  const there = () => !before.isNullObject && pointsTo(String(before.formula), at);
  const key = name.toUpperCase();
  const { names: planned, tables } = scope.planned;
  const inBatch = planned.get(key);
  const twice = inBatch !== undefined && pointsTo(`=${areaName(inBatch)}`, at);
  const takenByPlan = (inBatch !== undefined && !twice) || tables.some((one) => one.name.toUpperCase() === key);
  planned.set(key, at);
  let after = before;
  return {
    weight: 1,
    carryOut: () => {
      if (!twice && !there()) names.add(name, scope.range(at));
    },
    refusal: () =>
      !takenByPlan && ((before.isNullObject && asTable.isNullObject) || there()) ? undefined : takenFault(name),
    lookBack: () => {
      after = names.getItemOrNullObject(name);
    },
    putBack: () => {
      if (before.isNullObject && !after.isNullObject) after.delete();
    },
  };
}

/** True where a name's formula (`=Job!$B$2`) is just this area. */
function pointsTo(formula: string, at: Area): boolean {
  const cut = formula.lastIndexOf("!");
  const range = parseRange(formula.slice(cut + 1));
  const sheet = formula.slice(1, cut).replaceAll(/^'|'$/gu, "").replaceAll("''", "'");
  return range !== undefined && sheet.toUpperCase() === at.sheet.toUpperCase() && rangeName(range) === rangeName(at);
}

const KINDS = { line: "Line", column: "ColumnClustered", scatter: "XYScatter" } as const;

const DRAWN = { line: "XYScatterLinesNoMarkers", marks: "XYScatter" } as const;

/** Excel's own chart; one that stands there with the same title is left as the user made it. */
export function prepareChart(scope: Scope, sheet: string, plan: ChartPlan): Prepared {
  const first = plan.series[0];
  if (!first) throw new Error(`The chart "${plan.title}" has no series.`);
  const fresh = scope.isNew(sheet);
  const before = fresh ? undefined : scope.sheet(sheet).charts;
  before?.load("items/id,items/name");
  if (!fresh) scope.askProtection(sheet);
  const there = () => before?.items.some((chart) => chart.name === plan.title) ?? false;
  let after: Excel.ChartCollection | undefined;
  return {
    weight: 10,
    carryOut: () => {
      if (!there()) addChart(scope, sheet, plan, first);
    },
    refusal: () => scope.protectedFault(sheet),
    lookBack: () => {
      if (fresh) return;
      after = scope.sheet(sheet).charts;
      after.load("items/id");
    },
    putBack: () => {
      const known = new Set(before?.items.map((chart) => chart.id));
      for (const chart of after?.items ?? []) if (!known.has(chart.id)) chart.delete();
    },
  };
}

function addChart(scope: Scope, sheet: string, plan: ChartPlan, first: ChartPlan["series"][number]): void {
  const chart = scope.sheet(sheet).charts.add(KINDS[plan.kind], scope.range(first.y), "Columns");
  chart.name = plan.title;
  chart.title.text = plan.title;
  for (const [i, { name, x, y, drawn }] of plan.series.entries()) {
    const series = i === 0 ? chart.series.getItemAt(0) : chart.series.add(name);
    if (i === 0) series.name = name;
    else series.setValues(scope.range(y));
    if (x) series.setXAxisValues(scope.range(x));
    if (drawn) series.chartType = DRAWN[drawn];
  }
  chart.axes.categoryAxis.title.text = plan.xTitle;
  chart.axes.valueAxis.title.text = plan.yTitle;
  const { row, column, rows, columns } = plan.anchor;
  chart.setPosition(cellName(row, column), cellName(row + rows - 1, column + columns - 1));
}
