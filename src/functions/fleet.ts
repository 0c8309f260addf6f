/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { auditCells } from "../core/fleet/audit-cells";
import { trendFromCells } from "../core/fleet/trend-from-cells";
import { number, optional, optionalOrAbsent, readOne, toBlock } from "./arguments";
import { andThen } from "../core/result";
import type { FunctionTable } from "./function-table";
import { blockOrFault } from "./over-cells";
import { told } from "./told";

const value = number("values", { unit: "1", min: -1e9, max: 1e9 });
const temperature = number("temperatures", { unit: "°C", min: -60, max: 90 });
const limitOf = optionalOrAbsent(number("limit", { unit: "1", min: -1e9, max: 1e9 }));
const confidenceOf = optional(number("confidence", { unit: "1", min: 0.5, max: 0.999 }), 0.9);

/**
 * Robust trend of one reading over a machine's visits (Theil–Sen slope, Mann–Kendall test) and the date on which it crosses a limit, with its band.
 * @customfunction TREND
 * @param dates Dates of the visits, one for each value
 * @param values Readings, all in one unit
 * @param [limit] Value that must not be crossed, in the unit of the readings
 * @param [temperatures] Battery temperatures of the visits, °C: their effect is taken out
 * @param [confidence] Confidence of the intervals, 0.5 to 0.999 (0.9)
 * @returns State, change a year, low, high, chance of as much without a trend, crossing date, earliest, latest, visits, what was allowed for
 * @example =CHG.TREND({"2026-01-01";"2026-02-01";"2026-03-01";"2026-04-01";"2026-05-01";"2026-06-01"}, {12.8;12.75;12.7;12.65;12.6;12.55}, 12.4) gives falling, -0.609 and the rest of the row
 */
export function trend(
  dates: any[][],
  values: any[][],
  limit?: any[][],
  temperatures?: any[][],
  confidence?: any[][],
): any[][] {
  return blockOrFault(
    andThen(readOne(limit, limitOf), (level) =>
      andThen(readOne(confidence, confidenceOf), (share) =>
        trendFromCells(
          toBlock(dates),
          toBlock(values),
          toBlock(temperatures),
          value.read,
          temperature.read,
          level,
          share!,
        ),
      ),
    ),
  );
}

/**
 * Audits a fleet: a row of results beside each row of the table, in one call. Part, state, chance, next check, days until flat, order in which to bring machines in, verdict. NOTICES lists what was not understood.
 * @customfunction AUDIT
 * @param table The fleet's table with its header row, a machine a row: machine, readings, machine data, any order
 * @param [machines] Machine data by machine name, with its header row
 * @param [knownGood] Readings of known-good parts of the same number
 * @param [settings] Settings, two columns: faulty from (0.9), serviceable up to (0.05), in order beforehand (share of machines, for routine visits; blank: each came with a complaint), and the name of a fault with how often your shop has proven its repair
 * @param [names] What the columns hold, one name a column, blank to leave one out: then the table is rows alone, without its header row, and so is the result
 * @param [language] What the verdict is said in: en (default) or es; part, state, check and headers stay words for other formulas, but for es all
 * @returns Header row and a row for each row of the table; blank beside a blank row and beside totals
 * @example =CHG.AUDIT({"Machine","Rested voltage","Key-off draw";"Quad 5",11.9,"60 mA"}) gives Part, State, Chance, Next check, Days until flat, Order, Verdict, then a row for Quad 5: load, faulty
 */
export function audit(
  table: any[][],
  machines?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  names?: any[][],
  language?: any[][],
): any[][] {
  return told("AUDIT", language, () =>
    blockOrFault(auditCells(toBlock(table), toBlock(machines), toBlock(knownGood), toBlock(settings), toBlock(names))),
  );
}

export const fleetFunctions = { TREND: trend, AUDIT: audit } satisfies FunctionTable;
