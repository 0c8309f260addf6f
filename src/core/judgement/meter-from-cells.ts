import { isBlank, type Block, type Cell } from "../cell";
import { parseChoice, parseQuantity } from "../readings/parse";
import type { MeterFunction } from "../readings/types";
import { fail, ok, type Result } from "../result";
import { METER_UNITS, TYPICAL_HANDHELD, type Meter, type MeterRange } from "./meter";
import { METER_WORDS } from "./meter-words";

const FUNCTIONS = (Object.keys(METER_WORDS) as MeterFunction[]).map((value) => ({
  value,
  label: METER_WORDS[value].label,
  synonyms: METER_WORDS[value].synonyms,
}));

/**
 * Reads a meter's accuracy from cells: a row for each range, with the function, its top, ± percent,
 * ± counts and the smallest step. A header row is passed over; a function that is not listed keeps
 * the typical figures.
 *
 * @param block - Cells, five columns or more
 * @returns The meter; `not-understood`, `missing` or `shape` with the row named
 */
export function meterFromCells(block: Block): Result<Meter> {
  if (block.every((row) => row.every(isBlank))) return ok(TYPICAL_HANDHELD);
  const ranges: MeterRange[] = [];
  for (const [i, row] of block.entries()) {
    if (row.every(isBlank) || (i === 0 && isHeader(row))) continue;
    if (row.length < 5) {
      return fail({
        code: "shape",
        what: "meter",
        came: `a range of ${row.length} columns`,
        expected: "five: function, up to, ± %, ± counts, smallest step",
      });
    }
    const range = rangeFrom(row, i + 1);
    if (!range.ok) return range;
    ranges.push(range.value);
  }
  return ok({ name: "the shop's own meter", ranges });
}

function isHeader(row: readonly Cell[]): boolean {
  return row.slice(1).every((cell) => isBlank(cell) || (typeof cell === "string" && !/\d/u.test(cell)));
}

function rangeFrom(row: readonly Cell[], line: number): Result<MeterRange> {
  const where = `meter, row ${line}`;
  const of = parseChoice(row[0], where, FUNCTIONS);
  if (!of.ok) return of;
  if (of.value === null) return fail({ code: "missing", what: where, expected: "the function, such as DC volts" });
  const chosen = of.value as MeterFunction;
  const unit = METER_UNITS[chosen];
  const upTo = needed(row[1], `${where}, up to`, unit, 0, 1e12);
  const percent = needed(row[2], `${where}, ± %`, "%", 0, 50);
  const counts = needed(row[3], `${where}, ± counts`, "1", 0, 1000);
  const resolution = needed(row[4], `${where}, smallest step`, unit, 0, 1e9);
  if (!upTo.ok) return upTo;
  if (!percent.ok) return percent;
  if (!counts.ok) return counts;
  if (!resolution.ok) return resolution;
  return ok({
    of: chosen,
    upTo: upTo.value,
    percent: percent.value,
    counts: counts.value,
    resolution: resolution.value,
  });
}

function needed(
  cell: Cell,
  what: string,
  unit: Parameters<typeof parseQuantity>[1]["unit"],
  min: number,
  max: number,
): Result<number> {
  const parsed = parseQuantity(cell, { what, unit, min, max });
  if (!parsed.ok) return parsed;
  if (parsed.value?.kind !== "number")
    return fail({ code: "missing", what, expected: unit === "1" ? "a number" : `a number in ${unit}` });
  return ok(parsed.value.value);
}
