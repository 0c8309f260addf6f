import type { Sheet, Workbook } from "hucre/xlsx";
import type { StoredWorkbook } from "./read-workbook";

/** Things on a sheet that no step speaks of: how to see them, and what people call them. */
const ON_A_SHEET: readonly [what: string, count: (sheet: Sheet) => number][] = [
  ["picture", ({ images }) => images?.length ?? 0],
  ["pivot table", ({ pivotTables }) => pivotTables?.length ?? 0],
  ["text box", ({ textBoxes }) => textBoxes?.length ?? 0],
  ["sparkline", ({ sparklines }) => sparklines?.length ?? 0],
  ["slicer", ({ slicers, timelines }) => (slicers?.length ?? 0) + (timelines?.length ?? 0)],
  ["note", ({ cells, threadedComments }) => counted(cells, "comment") + (threadedComments?.length ?? 0)],
  ["link", ({ cells }) => counted(cells, "hyperlink")],
];

function counted(cells: Sheet["cells"], key: "comment" | "hyperlink"): number {
  return [...(cells?.values() ?? [])].filter((cell) => cell[key] !== undefined).length;
}

/** What of a file another host will not show, besides single cells and rules. */
export function lostParts(stored: StoredWorkbook, looks: Workbook): string[] {
  const lost = looks.sheets.flatMap((sheet) => {
    const things = ON_A_SHEET.flatMap(([what, count]) => {
      const n = count(sheet);
      return n === 0 ? [] : [`${sheet.name}: ${n} ${what}${n === 1 ? "" : "s"}`];
    });
    const hiddenRows = [...(sheet.rowDefs?.values() ?? [])].some(({ hidden }) => hidden);
    const hiddenColumns = (sheet.columns ?? []).some(({ hidden }) => hidden);
    return [
      ...things,
      ...(sheet.hidden || sheet.veryHidden ? [`${sheet.name}: that the sheet is hidden`] : []),
      ...(hiddenRows || hiddenColumns ? [`${sheet.name}: that rows or columns are hidden`] : []),
      ...(sheet.protection ? [`${sheet.name}: the protection of the sheet`] : []),
      ...(sheet.autoFilter ? [`${sheet.name}: the filter`] : []),
    ];
  });
  const cellSheets = new Set(stored.sheets.map(({ name }) => name));
  for (const { name } of looks.sheets) if (!cellSheets.has(name)) lost.push(`the chart sheet ${name}`);
  if (stored.parts.has("xl/vbaProject.bin")) lost.push("the macros");
  if (looks.workbookProtection) lost.push("the protection of the workbook");
  if (looks.dateSystem === "1904") lost.push("that dates count from 1904: they read four years early here");
  return lost;
}
