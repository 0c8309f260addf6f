import type { Block } from "../core/cell";
import type { Area, Workbook } from "./port";

/** Rows from the top of a sheet among which its headers are looked for. */
export const FIRST_ROWS = 30;
const MOST_COLUMNS = 80;

/** The first rows of a sheet that is looked through for what it holds. */
export interface SheetTop {
  readonly sheet: string;
  /** The filled part of the sheet, as far to the right as is looked. */
  readonly area: Area;
  readonly top: Block;
  /** All rows of that part: sheets of other kinds are not read through. */
  whole(): Promise<Block>;
}

/** The tops of all sheets with enough columns, in the workbook's order. */
export async function* sheetTops(workbook: Workbook, fewestColumns: number): AsyncGenerator<SheetTop> {
  for (const sheet of await workbook.sheetNames()) {
    const used = await workbook.usedArea(sheet);
    if (used.rows === 0 || used.columns < fewestColumns) continue;
    const area = { ...used, columns: Math.min(used.columns, MOST_COLUMNS) };
    const { values: top } = await workbook.read({ ...area, rows: Math.min(area.rows, FIRST_ROWS) });
    yield { sheet, area, top, whole: async () => (await workbook.read(area)).values };
  }
}
