import { median } from "simple-statistics";
import { isBlank, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { dateOrderAmong, isoDate, parseDate } from "./dates";
import { findSteps } from "./history/step";
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
  const order = dateOrderAmong(days);
  const visits: Visit[] = [];
  for (const [i, cell] of days.entries()) {
    if (isBlank(cell) || isBlank(amounts[i])) continue;
    const day = parseDate(cell, `date ${i + 1}`, order);
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
  const from = sinceLastStep(visits, limit);
  const found = trend(from ? from.visits : visits, limit, confidence);
  if (!found.ok) return found;
  const t = found.value;
  const allowedFor = [from?.note ?? "", t.allowedFor === "nothing" && from ? "" : t.allowedFor]
    .filter(Boolean)
    .join("; ");
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
      allowedFor,
    ],
  ]);
}

/** Noise that any reading has at least, as a share of its size [1]. */
const LEAST_NOISE = 0.003;

/**
 * The visits since the last lasting step, which a replaced battery, a repair or another meter makes:
 * what lay before belongs to another level. A step towards the limit is no new beginning: it counts.
 */
function sinceLastStep(visits: readonly Visit[], limit: number | undefined) {
  const sorted = [...visits].sort((a, b) => a.day - b.day);
  const values = sorted.map((visit) => visit.value);
  const size = Math.max(...values.map(Math.abs));
  const steps = findSteps(
    sorted.map((visit) => visit.day),
    values,
    Math.max(size * LEAST_NOISE, Number.MIN_VALUE),
  );
  // The good side of the limit is where most visits lie.
  const good = limit === undefined ? 0 : Math.sign(median(values) - limit);
  const away = steps.filter(({ size: by }) => good === 0 || Math.sign(by) === good);
  const last = away.at(-1);
  if (!last) return undefined;
  const by = Number(Math.abs(last.size).toPrecision(2));
  const note = `starts anew on ${isoDate(sorted[last.at]!.day)}, ${by} ${last.size > 0 ? "higher" : "lower"} than before: a replaced battery, a repair or another meter`;
  return { visits: sorted.slice(last.at), note };
}
