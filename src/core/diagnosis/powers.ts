/** Below this a product of factors may have lost digits, and logarithms take over. */
export const SMALLEST = 1e-250;

/** `base` to the power of −`halves`/2, for whole `halves`: a few products instead of two logarithms. */
export function inverseRoot(base: number, halves: number): number {
  const inverse = 1 / base;
  let result = halves % 2 === 1 ? Math.sqrt(inverse) : 1;
  for (let power = inverse, left = halves >> 1; left > 0; left >>= 1, power *= power) {
    if ((left & 1) === 1) result *= power;
  }
  return result;
}

/** log of the sum of exp(`a`) and exp(`b`). */
export function logAdd(a: number, b: number): number {
  if (a === -Infinity) return b;
  return a > b ? a + Math.log1p(Math.exp(b - a)) : b + Math.log1p(Math.exp(a - b));
}

/** Stirling's series after shifting the argument up; better than 1e-10 for x ≥ 0.5. */
export function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 8) {
    shift -= Math.log(z);
    z += 1;
  }
  const y = 1 / (z * z);
  return (
    shift +
    (z - 0.5) * Math.log(z) -
    z +
    0.5 * Math.log(2 * Math.PI) +
    (1 / z) * (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y / 1680)))
  );
}
