import type { Cell } from "../../src/core/cell";
import { faultMessage } from "../../src/core/result";
import { areaName, parseRange } from "../../src/workbook/address";
import { lookAtTable, type AdoptableTable } from "../../src/workbook/adopt-table";
import type { Area, CellWrite, Step, Workbook } from "../../src/workbook/port";

/** Sheets as shops keep them, invented, with all that goes wrong in them. */

export type Rows = readonly (readonly CellWrite[])[];

export const SHEET = "Quads";

export function areaAt(range: string, sheet = SHEET): Area {
  return { sheet, ...parseRange(range)! };
}

export function fill(rows: Rows, sheet = SHEET): Step {
  const columns = Math.max(...rows.map((row) => row.length));
  const values = rows.map((row) => Array.from({ length: columns }, (_, c) => row[c] ?? ""));
  return { do: "write", at: { sheet, row: 0, column: 0, rows: rows.length, columns }, values };
}

/** A title over all columns, units in brackets, mixed units in the cells, a blank row, totals, a note. */
export const MESSY: Rows = [
  ["Rental quads, autumn round"],
  ["checked by the workshop", "", "", "", "", "sheet 3"],
  [],
  ["Unit no", "Cust.", "Battery type", "Rested voltge (V)", "Key-off draw [mA]", "Cranking volts", "Charging voltage"],
  ["Q-01", "rent", "agm", 12.82, 1.2, 10.9, 14.3],
  ["Q-02", "rent", "AGM", "12,3 V", "0.35 A", 10.1, 14.2],
  [],
  ["Q-03", "own", "wet", "12100 mV", 2, "9.2V", "12.0 V DC"],
  ["Q-04", "own", "agm", "", "", "", ""],
  ["Q-05", "own", "agm", "n.a.?", 1, 10.9, 14.3],
  ["Total", 5, "", { formula: "=SUM(D5:D10)" }, 4.2, "", ""],
  [],
  ["Readings at the posts, meter 2."],
];

export async function look(workbook: Workbook, at: string | Area): Promise<AdoptableTable> {
  const found = await lookAtTable(workbook, typeof at === "string" ? areaAt(at) : at);
  if (!found.ok) throw new Error(faultMessage(found.fault));
  return found.value;
}

export async function valuesAt(workbook: Workbook, range: string, sheet = SHEET): Promise<Cell[][]> {
  return (await workbook.read(areaAt(range, sheet))).values.map((row) => [...row]);
}

/** Everything on the sheet, by cell name, to see that nothing else changed. */
export async function everyCell(workbook: Workbook, sheet = SHEET): Promise<Map<string, string>> {
  const used = await workbook.usedArea(sheet);
  const { values, formulas } = await workbook.read(used);
  const cells = new Map<string, string>();
  values.forEach((row, r) =>
    row.forEach((value, c) => {
      const formula = formulas[r]![c]!;
      if (value === "" && formula === "") return;
      const at = areaName({ sheet, row: r, column: c, rows: 1, columns: 1 });
      cells.set(at, formula === "" ? JSON.stringify(value) : formula);
    }),
  );
  return cells;
}
