import { fromPlanes, toPlanes } from "./byte-planes";
import { fromText, toText } from "./byte-text";
import type { Component, Mixture } from "./mixture";

/**
 * Fitted mixtures packed into text: 14 bits a mean, 8 bits a weight, a spread and a correlation. A
 * covariance travels as the rows of its Cholesky factor, each of unit length, so that whatever the
 * rounding it stays a covariance.
 */
export interface PackedSignatures {
  readonly coordinates: readonly string[];
  readonly covariates: number;
  /** Middle and spread of each coordinate over all jobs: the units of the packed means and spreads. */
  readonly centre: readonly number[];
  readonly scale: readonly number[];
  /** Name, and number of components with either kind of regulator, in order. */
  readonly mixtures: readonly (readonly [name: string, series: number, shunt: number])[];
  /** For each correlation, row by row, from 3 down how much it differs among the components. */
  readonly wide: string;
  /** The bytes of all components as text. */
  readonly data: string;
}

/** Means reach ±8 spreads. */
const MOST_STEPS = 8191;
const MEAN_STEP = 8 / MOST_STEPS;
/** Spreads from 1/400 to 4 of the overall one, in 255 equal steps of logarithm. */
const SPREAD_LOW = Math.log(1 / 400);
const SPREAD_STEP = (Math.log(4) - SPREAD_LOW) / 255;

export function bytesPerComponent(n: number): number {
  return 1 + 2 * n + n + (n * (n - 1)) / 2;
}

export function packComponent(
  { weight, mean }: Pick<Component, "weight" | "mean">,
  lower: Float64Array,
  centre: readonly number[],
  scale: readonly number[],
): Uint8Array {
  const n = mean.length;
  const bytes = new Uint8Array(bytesPerComponent(n));
  bytes[0] = Math.max(1, Math.round(weight * 255));
  for (let i = 0; i < n; i++) {
    const steps = clamp(Math.round((mean[i]! - centre[i]!) / scale[i]! / MEAN_STEP), -MOST_STEPS, MOST_STEPS);
    bytes[1 + i] = steps >> 6;
    bytes[coarse(n) + i] = steps & 63;
  }
  for (let i = 0, at = coarse(n) + n; i < n; i++) {
    const row = (i * (i + 1)) / 2;
    let length = 0;
    for (let j = 0; j <= i; j++) length += (lower[row + j]! / scale[i]!) ** 2;
    length = Math.sqrt(length);
    bytes[1 + n + i] = clamp(Math.round((Math.log(length) - SPREAD_LOW) / SPREAD_STEP), 0, 255);
    for (let j = 0; j < i; j++)
      bytes[at++] = clamp(Math.round((lower[row + j]! / scale[i]! / length) * 127), -127, 127);
  }
  return bytes;
}

/** Weight, upper parts of the means and spreads stand first: components have them much alike. */
const coarse = (n: number) => 1 + 2 * n;

/** Places of a component's bytes in the order in which they pack best: what is spread wide first, what is alike last. */
function packedOrder(n: number, wide: string): readonly number[] {
  const some = (from: number, count: number) => Array.from({ length: count }, (_, i) => from + i);
  const correlations = some(coarse(n) + n, wide.length);
  const of = (mark: string) => correlations.filter((_, i) => wide[i] === mark);
  return [...some(coarse(n), n), ...[..."3210"].flatMap(of), ...some(0, coarse(n))];
}

/** Components of `n` coordinates as text. */
export function packAll(components: Uint8Array, n: number): Pick<PackedSignatures, "wide" | "data"> {
  const length = bytesPerComponent(n);
  const spreads = packedOrder(n, "0".repeat((n * (n - 1)) / 2))
    .slice(n, -coarse(n))
    .map((place) =>
      components.reduce((sum, byte, at) => (at % length === place ? sum + ((byte << 24) >> 24) ** 2 : sum), 0),
    );
  const rising = [...spreads].sort((a, b) => a - b);
  const wide = spreads.map((spread) => Math.floor((4 * rising.indexOf(spread)) / rising.length)).join("");
  const order = packedOrder(n, wide);
  const packed = components.map((_, at) => components[at - (at % length) + order[at % length]!]!);
  return { wide, data: toText(toPlanes(packed, length, coarse(n))) };
}

/** Least share of a row of the factor that is its own: no coordinate is wholly foretold by others. */
const LEAST_OWN = 0.02;

export function unpack(packed: PackedSignatures): readonly Mixture[] {
  const { centre, scale } = packed;
  const n = packed.coordinates.length;
  const length = bytesPerComponent(n);
  const order = packedOrder(n, packed.wide);
  const bytes = new Uint8Array(packed.data.length);
  fromPlanes(fromText(packed.data), length, coarse(n)).forEach((byte, at) => {
    bytes[at - (at % length) + order[at % length]!] = byte;
  });
  const signed = new Int8Array(bytes.buffer);
  let from = 0;
  const component = (): Component => {
    const weight = bytes[from]! / 255;
    const mean = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const steps = signed[from + 1 + i]! * 64 + bytes[from + coarse(n) + i]!;
      mean[i] = centre[i]! + steps * MEAN_STEP * scale[i]!;
    }
    const spreads = from + 1 + n;
    let at = from + coarse(n) + n;
    const rows: Float64Array[] = [];
    for (let i = 0; i < n; i++) {
      const spread = Math.exp(SPREAD_LOW + bytes[spreads + i]! * SPREAD_STEP) * scale[i]!;
      const row = new Float64Array(i + 1);
      let others = 0;
      for (let j = 0; j < i; j++) {
        row[j] = signed[at++]! / 127;
        others += row[j]! ** 2;
      }
      const own = Math.sqrt(Math.max(1 - others, LEAST_OWN ** 2));
      const length = Math.hypot(Math.sqrt(others), own);
      row[i] = own;
      for (let j = 0; j <= i; j++) row[j] = (row[j]! * spread) / length;
      rows.push(row);
    }
    const covariance = new Float64Array((n * (n + 1)) / 2);
    for (let i = 0, k = 0; i < n; i++) {
      for (let j = 0; j <= i; j++, k++) {
        let sum = 0;
        for (let l = 0; l <= j; l++) sum += rows[i]![l]! * rows[j]![l]!;
        covariance[k] = sum;
      }
    }
    from = at;
    return { weight, mean, covariance };
  };
  const mixture = (name: string, count: number): Mixture => ({
    name,
    components: Array.from({ length: count }, component),
  });
  return packed.mixtures.flatMap(([name, series, shunt]) =>
    [mixture(`${name}|series`, series), mixture(`${name}|shunt`, shunt)].filter((m) => m.components.length > 0),
  );
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
