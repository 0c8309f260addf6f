import { quantile } from "simple-statistics";
import { quantityById } from "../../readings/catalogue";
import { FOLLOWED, type Followed, type Hear } from "./types";
import type { VisitLog } from "./visit-log";

/** Another unit that people type into a column, and what the number would then be. */
interface Slip {
  readonly reading: Followed;
  readonly unit: string;
  readonly read: (bare: number) => number;
  /** Scale on which values of the column lie evenly. */
  readonly scale: (value: number) => number;
  /** Whether half of a fleet's readings never lie beyond this, as a column that is whole in the other unit does. */
  readonly unlikely: (middle: number) => boolean;
}

const SLIPS: readonly Slip[] = [
  { reading: "battery-temperature", unit: "°F", read: (v) => (v - 32) / 1.8, scale: (v) => v, unlikely: (v) => v > 45 },
  {
    reading: "key-off-draw",
    unit: "A",
    read: (v) => v * 1000,
    scale: (v) => Math.log10(Math.max(v, 1e-6)),
    // Clocks and memories alone draw more (common practice: 1 to 50 mA); a meter that shows nothing says 0.
    unlikely: (v) => v > 0 && v < 0.3,
  },
];

/** Robust standard deviations: this far off as typed, and this near in the other unit. */
const OFF = 3;
const NEAR = 2;
const LEAST = 8;
const MOST_SAMPLED = 20_000;
/** Readings of this many days are one season [d]. */
const SEASON = 45;

/**
 * Bare numbers that stand far from their column as typed and right in it in another unit: 70 in a
 * column of degrees Celsius near 20. They are shown, not converted: nobody but the person who typed
 * them knows.
 *
 * @param headerOf - Header of a reading's column in a file
 */
export function slippedUnits(log: VisitLog, headerOf: HeaderOf, hear: Hear): void {
  for (const slip of SLIPS) {
    slipped(log, slip, headerOf, hear);
    wholeColumns(log, slip, headerOf, hear);
  }
}

type HeaderOf = (file: number, reading: Followed) => string;

function slipped(log: VisitLog, { reading, unit, read, scale }: Slip, headerOf: HeaderOf, hear: Hear): void {
  const f = FOLLOWED.indexOf(reading);
  const season = (i: number) => (Number.isNaN(log.dayAt(i)) ? -1 : Math.floor(log.dayAt(i) / SEASON));
  const samples = new Map<number, number[]>();
  const whole: number[] = [];
  const stride = Math.max(1, Math.floor(log.size / MOST_SAMPLED));
  for (let i = 0; i < log.size; i += stride) {
    const value = log.valueAt(i, f);
    if (Number.isNaN(value)) continue;
    const s = season(i);
    const sample = samples.get(s) ?? [];
    sample.push(scale(value));
    samples.set(s, sample);
    whole.push(scale(value));
  }
  if (whole.length < LEAST) return;
  const all = spreadOf(whole);
  const bySeason = new Map([...samples].map(([s, sample]) => [s, sample.length < LEAST ? all : spreadOf(sample)]));
  for (let i = 0; i < log.size; i++) {
    const value = log.valueAt(i, f);
    if (Number.isNaN(value) || !log.isBare(i, f)) continue;
    const { middle, spread } = bySeason.get(season(i)) ?? all;
    const other = scale(read(value));
    if (Math.abs(scale(value) - middle) <= OFF * spread || Math.abs(other - middle) > NEAR * spread) continue;
    const { file, row } = log.at(i);
    hear({
      file,
      row,
      column: headerOf(file, reading),
      machine: log.machineAt(i),
      kind: "mixed units",
      what: `${short(value)} stands far from the other readings of this time and would fit them in ${unit}; it was read as it stands. If it is ${unit}, write the unit with it.`,
    });
  }
}

/** So few readings are no column yet. */
const LEAST_OF_COLUMN = 3;

/** Columns of bare numbers that are likely all in the other unit: nothing in them stands out. */
function wholeColumns(log: VisitLog, { reading, unit, unlikely }: Slip, headerOf: HeaderOf, hear: Hear): void {
  const f = FOLLOWED.indexOf(reading);
  const columns = new Map<number, { row: number; values: number[] }>();
  for (let i = 0; i < log.size; i++) {
    const value = log.valueAt(i, f);
    if (Number.isNaN(value) || !log.isBare(i, f)) continue;
    const { file, row } = log.placeAt(i);
    const column = columns.get(file) ?? { row, values: [] };
    columns.set(file, column);
    if (column.values.length < MOST_SAMPLED) column.values.push(value);
  }
  for (const [file, { row, values }] of columns) {
    const middle = quantile(values, 0.5);
    if (values.length < LEAST_OF_COLUMN || !unlikely(middle)) continue;
    hear({
      file,
      row,
      column: headerOf(file, reading),
      machine: "",
      kind: "mixed units",
      ofFleet: true,
      what: `the middle one of these readings is ${short(middle)} ${quantityById(reading).unit}; if the column is in ${unit}, write the unit in its header.`,
    });
  }
}

function spreadOf(sample: number[]): { middle: number; spread: number } {
  const middle = quantile(sample, 0.5);
  const off = sample.map((v) => Math.abs(v - middle));
  // A column in which most cells are alike still has some spread.
  return { middle, spread: Math.max(1.4826 * quantile(off, 0.5), 0.25) };
}

const short = (value: number) => String(Number(value.toPrecision(4)));
