import { isBlank, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { parseDate } from "./dates";
import { trend, type Visit } from "./trend";

/** Reads one cell as a number of whatever the column holds; `null` for blank. */
export type ReadNumber = (cell: Cell) => Result<number | null>;

/**
 * Trend from cells: a column (or row) of dates and one of values, blanks skipped in pairs.
 *
 * @returns State, change a year, low, high, chance without a trend, crossing day, earliest, latest, visits, allowed for
 */
export function trendFromCells(
  dates: Block,
  values: Block,
  temperatures: Block,
  readValue: ReadNumber,
  readTemperature: ReadNumber,
  limit: number | undefined,
  confidence: number,
): Result<Cell[][]> {
  const [days, amounts, warmth] = [dates.flat(), values.flat(), temperatures.flat()];
  const withWarmth = warmth.some((cell) => !isBlank(cell));
  if (days.length !== amounts.length || (withWarmth && warmth.length !== days.length)) {
    return fail({
      code: "shape",
      what: "dates and values",
      came: `${days.length} dates, ${amounts.length} values${withWarmth ? `, ${warmth.length} temperatures` : ""}`,
      expected: "as many of each",
    });
  }
  const visits: Visit[] = [];
  for (const [i, cell] of days.entries()) {
    if (isBlank(cell) || isBlank(amounts[i])) continue;
    const day = parseDate(cell, `date ${i + 1}`);
    if (!day.ok) return day;
    const value = readValue(amounts[i]);
    if (!value.ok) return value;
    const temperature = withWarmth ? readTemperature(warmth[i]) : ok(null);
    if (!temperature.ok) return temperature;
    if (day.value === null || value.value === null) continue;
    visits.push({
      day: day.value,
      value: value.value,
      ...(temperature.value === null ? {} : { temperature: temperature.value }),
    });
  }
  if (visits.length === 0) return ok([[""]]);
  const found = trend(visits, limit, confidence);
  if (!found.ok) return found;
  const t = found.value;
  const orBlank = (x: number | undefined): Cell => (x !== undefined && Number.isFinite(x) ? x : "");
  return ok([
    [
      t.state,
      orBlank(t.perYear),
      orBlank(t.perYearLow),
      orBlank(t.perYearHigh),
      orBlank(t.p),
      orBlank(t.crosses),
      orBlank(t.crossesEarliest),
      orBlank(t.crossesLatest),
      t.visits,
      t.allowedFor,
    ],
  ]);
}
