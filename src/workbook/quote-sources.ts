import type { Block, Cell } from "../core/cell";
import { isPriceHeader } from "../core/quote/price-columns";
import { isTermLabel } from "../core/quote/terms";
import { fixedRange, sheetPrefix } from "./address";
import { locateReadings } from "./job-sheet";
import type { Area, Workbook } from "./port";
import type { QuoteSources } from "./quote-plan";
import { sheetTops } from "./sheet-tops";

/** Cells of the shop's own sheet, with the range by which a formula refers to them. */
export interface ShopCells {
  readonly sheet: string;
  readonly range: string;
  readonly values: Block;
}

/** What every quote of the shop is worked out from; absent where no sheet holds it. */
export interface ShopSheets {
  readonly prices: ShopCells | undefined;
  readonly terms: ShopCells | undefined;
}

/** So many terms in one column make the shop's terms. */
const ENOUGH_TERMS = 3;
/** Rows below the last filled one that a price list may still grow into. */
const ROOM = 60;

/** Finds the shop's price list by its headers and its terms by their labels, wherever they stand. */
export async function findShopSheets(workbook: Workbook): Promise<ShopSheets> {
  let prices: ShopCells | undefined;
  let terms: ShopCells | undefined;
  for await (const { area, top } of sheetTops(workbook, 2)) {
    prices ??= await readPrices(workbook, area, top);
    terms ??= await readTermCells(workbook, area, top);
    if (prices && terms) break;
  }
  return { prices, terms };
}

async function readPrices(workbook: Workbook, used: Area, top: Block): Promise<ShopCells | undefined> {
  const row = top.findIndex(isPriceHeader);
  if (row < 0) return undefined;
  return shopCells(workbook, { ...used, row, rows: used.rows - row }, ROOM);
}

async function readTermCells(workbook: Workbook, used: Area, top: Block): Promise<ShopCells | undefined> {
  for (let column = 0; column + 1 < Math.min(used.columns, 12); column++) {
    const first = top.findIndex((line) => isTermLabel(line[column]));
    if (first < 0 || top.filter((line) => isTermLabel(line[column])).length < ENOUGH_TERMS) continue;
    return shopCells(workbook, { ...used, row: first, column, rows: used.rows - first, columns: 2 });
  }
  return undefined;
}

async function shopCells(workbook: Workbook, at: Area, room = 0): Promise<ShopCells> {
  const { values } = await workbook.read(at);
  return { sheet: at.sheet, range: `${sheetPrefix(at.sheet)}${fixedRange({ ...at, rows: at.rows + room })}`, values };
}

/** What of a job sheet a quote is worked out from. */
export type JobSources = Pick<QuoteSources, "jobSheet" | "verdict" | "nextCheck" | "causes" | "facts"> & {
  /** The verdict's cells as they stand: part, state, chance, sentence; blank in a host that does not calculate. */
  readonly verdictCells: readonly Cell[];
};

/** Finds the cells of a job sheet by what stands in them; `undefined` where it has no verdict to follow. */
export async function findJobSources(workbook: Workbook, jobSheet: string): Promise<JobSources | undefined> {
  const used = await workbook.usedArea(jobSheet);
  if (used.rows === 0) return undefined;
  const { values, formulas } = await workbook.read(used);
  const verdict = cellThatCalls("VERDICT", formulas);
  const nextCheck = cellThatCalls("NEXTCHECK", formulas);
  const causes = cellThatCalls("CAUSES", formulas);
  const cells = locateReadings(values)?.cells;
  if (!verdict || !nextCheck || !cells) return undefined;
  const facts = new Map([...cells].map(([id, { row, column }]) => [id, { row, column }]));
  const verdictCells = values[verdict.row]!.slice(verdict.column, verdict.column + 4);
  return { jobSheet, verdict, nextCheck, causes, facts, verdictCells };
}

/** The first cell whose formula is a call of one of our functions. */
function cellThatCalls(name: string, formulas: readonly (readonly string[])[]) {
  const call = new RegExp(String.raw`^=\s*CHG\.${name}\(`, "iu");
  for (const [row, line] of formulas.entries()) {
    const column = line.findIndex((formula) => call.test(formula));
    if (column >= 0) return { row, column };
  }
  return undefined;
}
