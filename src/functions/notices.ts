/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { noticesCells } from "../core/fleet/notices-cells";
import { toBlock } from "./arguments";
import type { FunctionTable } from "./function-table";
import { blockOrFault } from "./over-cells";
import { told } from "./told";

/**
 * What must be said of a fleet's table, a row for each thing: cells and columns that were not understood, doubled and renamed machines, mixed units, a changed meter, storage, a battery replaced in between.
 * @customfunction NOTICES
 * @param table The fleet's table with its header row, as for AUDIT
 * @param [names] What the columns hold, one name a column, where the table is rows alone
 * @param [language] What the sentence is said in: en (default) or es
 * @returns Header row, then row (the table's first row is 1), column, machine, what was recognised, and the sentence
 * @example =CHG.NOTICES({"Machine","Rested voltage";"Quad 5","12.x"}) gives Row, Column, Machine, Recognised, What, then a row: 2, Rested voltage, Quad 5, not understood
 */
export function notices(table: any[][], names?: any[][], language?: any[][]): any[][] {
  return told("NOTICES", language, () => blockOrFault(noticesCells(toBlock(table), toBlock(names))));
}

export const noticesFunctions = { NOTICES: notices } satisfies FunctionTable;
