/** A value with its standard uncertainty, both in the same unit. */
export interface Uncertain {
  readonly value: number;
  /** Standard uncertainty, 0 or more. */
  readonly u: number;
}

/** Standard uncertainty of a quantity that lies anywhere within ±a. @source jcgm100 section 4.3.7 */
export function rectangular(a: number): number {
  return Math.abs(a) / Math.sqrt(3);
}

/** Independent contributions together. @source jcgm100 section 5.1.2 */
export function rootSumSquares(...parts: readonly number[]): number {
  return Math.hypot(...parts);
}

/** What remains after a known offset (the meter's own leads) is taken away, each with its uncertainty. */
export function minus(reading: Uncertain, offset: Uncertain): Uncertain {
  return { value: reading.value - offset.value, u: rootSumSquares(reading.u, offset.u) };
}

/**
 * Carries the uncertainties of inputs through a formula to first order.
 *
 * @param formula - Any smooth function of the inputs
 * @param inputs - Estimates with standard uncertainties
 * @param correlation - r between inputs i and j, −1 to 1; independent where left out
 * @returns The result with its combined standard uncertainty
 * @source jcgm100 sections 5.1.2, 5.1.3 (numerical sensitivities) and 5.2.2
 */
export function propagate(
  formula: (...x: number[]) => number,
  inputs: readonly Uncertain[],
  correlation: (i: number, j: number) => number = () => 0,
): Uncertain {
  const at = inputs.map((input) => input.value);
  const moved = (i: number, by: number) => formula(...at.map((x, j) => (i === j ? x + by : x)));
  // Half the distance between the results one standard uncertainty to either side.
  const effects = inputs.map(({ u }, i) => (u > 0 ? (moved(i, u) - moved(i, -u)) / 2 : 0));
  let variance = 0;
  for (const [i, a] of effects.entries()) {
    for (const [j, b] of effects.entries()) variance += a * b * (i === j ? 1 : correlation(i, j));
  }
  return { value: formula(...at), u: Math.sqrt(Math.max(0, variance)) };
}
