import { gammaln } from "simple-statistics";

const SMALLEST = 1e-300;

/**
 * Regularised upper incomplete gamma function Q(a, x) = Γ(a, x)/Γ(a): a series below the bend, a
 * continued fraction above it. Relative to the tables of the chi-square and normal distributions
 * it is good to about 1e-10, which is far more than a tolerance factor needs.
 *
 * @param a - Shape [1], above 0 and up to 1e6
 * @param x - Argument [1], 0 or more
 * @returns Q(a, x) [1], from 1 down to 0
 * @source abramowitz-stegun 6.5.29 (series), 6.5.31 (continued fraction)
 */
export function upperGamma(a: number, x: number): number {
  if (x <= 0) return 1;
  const front = Math.exp(a * Math.log(x) - x - gammaln(a));
  return x < a + 1 ? 1 - front * series(a, x) : front * continuedFraction(a, x);
}

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 100_000; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-16) break;
  }
  return sum;
}

/** Lentz's forward evaluation. */
function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / SMALLEST;
  let d = 1 / nonZero(b);
  let h = d;
  for (let n = 1; n < 100_000; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / nonZero(an * d + b);
    c = nonZero(b + an / c);
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < 1e-15) break;
  }
  return h;
}

function nonZero(value: number): number {
  return Math.abs(value) < SMALLEST ? SMALLEST : value;
}

/** Share of a chi-square distribution with `degrees` degrees of freedom that lies above `x`. */
export function chiSquareAbove(x: number, degrees: number): number {
  return upperGamma(degrees / 2, x / 2);
}
