import { fromText } from "./byte-text";
import type { Component, Mixture } from "./mixture";

/**
 * Fitted mixtures packed into text: 16 bits a mean, 8 bits a weight, a spread and a correlation. A
 * covariance travels as the rows of its Cholesky factor, each of unit length, so that whatever the
 * rounding it stays a covariance.
 */
export interface PackedSignatures {
  readonly coordinates: readonly string[];
  readonly covariates: number;
  /** Middle and spread of each coordinate over all jobs: the units of the packed means and spreads. */
  readonly centre: readonly number[];
  readonly scale: readonly number[];
  /** Name and number of components of each mixture, in order. */
  readonly mixtures: readonly (readonly [name: string, components: number])[];
  /** The bytes of all components as text. */
  readonly data: string;
}

/** Means reach ±8 spreads. */
const MEAN_STEP = 8 / 32767;
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
  const view = new DataView(bytes.buffer);
  let at = 0;
  view.setUint8(at++, Math.max(1, Math.round(weight * 255)));
  for (let i = 0; i < n; i++, at += 2)
    view.setInt16(at, clamp(Math.round((mean[i]! - centre[i]!) / scale[i]! / MEAN_STEP), -32767, 32767));
  for (let i = 0; i < n; i++) {
    const row = (i * (i + 1)) / 2;
    let length = 0;
    for (let j = 0; j <= i; j++) length += (lower[row + j]! / scale[i]!) ** 2;
    length = Math.sqrt(length);
    view.setUint8(at++, clamp(Math.round((Math.log(length) - SPREAD_LOW) / SPREAD_STEP), 0, 255));
    for (let j = 0; j < i; j++)
      view.setInt8(at++, clamp(Math.round((lower[row + j]! / scale[i]! / length) * 127), -127, 127));
  }
  return bytes;
}

/** Least share of a row of the factor that is its own: no coordinate is wholly foretold by others. */
const LEAST_OWN = 0.02;

export function unpack(packed: PackedSignatures): readonly Mixture[] {
  const { centre, scale } = packed;
  const n = packed.coordinates.length;
  const bytes = fromText(packed.data);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const component = (): Component => {
    const weight = view.getUint8(at++) / 255;
    const mean = new Float64Array(n);
    for (let i = 0; i < n; i++, at += 2) mean[i] = centre[i]! + view.getInt16(at) * MEAN_STEP * scale[i]!;
    const rows: Float64Array[] = [];
    for (let i = 0; i < n; i++) {
      const spread = Math.exp(SPREAD_LOW + view.getUint8(at++) * SPREAD_STEP) * scale[i]!;
      const row = new Float64Array(i + 1);
      let others = 0;
      for (let j = 0; j < i; j++) {
        row[j] = view.getInt8(at++) / 127;
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
    return { weight, mean, covariance };
  };
  return packed.mixtures.map(([name, count]) => ({ name, components: Array.from({ length: count }, component) }));
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
