/** One normal-like cloud of a mixture. */
export interface Component {
  readonly weight: number;
  readonly mean: Float64Array;
  /** Lower triangle of the covariance, row by row, `n(n+1)/2` numbers. */
  readonly covariance: Float64Array;
}

/** Components that together foretell the readings of one signature. */
export interface Mixture {
  readonly name: string;
  readonly components: readonly Component[];
}

/** Place of an element in a lower triangle, whichever index is the larger. */
export function placeInTriangle(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}

/** Mean and covariance of a mixture as a whole. */
export function momentsOf(components: readonly Component[]): Omit<Component, "weight"> {
  const n = components[0]!.mean.length;
  const total = components.reduce((sum, c) => sum + c.weight, 0);
  const mean = new Float64Array(n);
  for (const c of components) for (let i = 0; i < n; i++) mean[i] = mean[i]! + (c.weight / total) * c.mean[i]!;
  const covariance = new Float64Array((n * (n + 1)) / 2);
  for (const c of components) {
    for (let i = 0, k = 0; i < n; i++) {
      for (let j = 0; j <= i; j++, k++) {
        covariance[k] =
          covariance[k]! + (c.weight / total) * (c.covariance[k]! + (c.mean[i]! - mean[i]!) * (c.mean[j]! - mean[j]!));
      }
    }
  }
  return { mean, covariance };
}
