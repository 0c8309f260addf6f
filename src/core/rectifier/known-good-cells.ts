import { isBlank, type Block, type Cell } from "../cell";
import { rangeFor, readingUncertainty, type MeterRange } from "../judgement/meter";
import { meterFromCells } from "../judgement/meter-from-cells";
import { matchLabel } from "../readings/match";
import { parseEntry } from "../readings/parse";
import type { QuantityEntry } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { PART_SPREAD } from "./expectation";
import { knownGood } from "./known-good";

/** Good parts of one number lie this far apart while fewer than three were read [1]. @source common-practice */
const SPREAD_SHARE = 0.1;

export interface KnownGoodGiven {
  /** One reading a part, in any shape; blanks are parts that were not read. */
  readonly samples: Block;
  readonly coverage: number;
  readonly confidence: number;
  /** Which reading of the catalogue it is; a diode check where blank. */
  readonly reading: Cell;
  readonly meter: Block;
}

/** Low, high, count, mean, deviation, factor and how the parts are compared; `undefined` where none was read. */
export function knownGoodCells(given: KnownGoodGiven): Result<readonly Cell[] | undefined> {
  return andThen(entryFor(given.reading), (entry) =>
    andThen(meterFromCells(given.meter), (meter) =>
      andThen(readingsIn(given.samples, entry), (readings) => {
        if (readings.length === 0) return ok(undefined);
        const largest = readings.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
        const range: MeterRange | undefined = entry.meter && rangeFor(meter, entry.meter, largest);
        const interval = knownGood(readings, {
          coverage: given.coverage,
          confidence: given.confidence,
          meter: range ? 2 * readingUncertainty(largest, range) : 0,
          step: range?.resolution ?? 10 ** -entry.decimals,
          spread: entry.meter === "diode" ? PART_SPREAD : SPREAD_SHARE * largest,
        });
        return andThen(interval, ({ low, high, count, mean, deviation, factor, words }) =>
          ok([low, high, count, mean, deviation ?? "", factor ?? "", words]),
        );
      }),
    ),
  );
}

function entryFor(reading: Cell): Result<QuantityEntry> {
  const name = isBlank(reading) ? "upper-forward-a" : String(reading);
  const entry = matchLabel(name)?.entry;
  if (entry?.kind === "quantity") return ok(entry);
  return fail({
    code: "not-understood",
    what: "reading",
    came: name,
    expected: "a reading of the catalogue, such as upper-forward-a or Winding resistance, A–B",
  });
}

function readingsIn(samples: Block, entry: QuantityEntry): Result<readonly number[]> {
  const readings: number[] = [];
  for (const cell of samples.flat()) {
    const parsed = parseEntry(cell, entry);
    if (!parsed.ok) return parsed;
    if (parsed.value === null) continue;
    if (parsed.value.kind !== "number") {
      return fail({
        code: "not-understood",
        what: entry.label,
        came: String(cell),
        expected: "numbers only: over-range parts are compared reading by reading in DIODES",
      });
    }
    readings.push(parsed.value.value);
  }
  return ok(readings);
}
