/** Constants of the rational approximation, highest power first. */
// prettier-ignore
const TOP = [3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931, 220.206867912376];
// prettier-ignore
const BOTTOM = [8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831, 793.826512519948, 440.413735824752];

/**
 * Chance that a standard normal value lies at or below `z`, to double precision in the tails too.
 *
 * @param z - Standard deviations from the mean, any number; NaN gives NaN
 * @returns Chance [1], 0 to 1
 * @source hart1968 algorithm 5666, in the form given by West (2005)
 */
export function normalChance(z: number): number {
  const x = Math.abs(z);
  if (Number.isNaN(z)) return Number.NaN;
  const tail =
    x > 37 ? 0 : Math.exp((-x * x) / 2) * (x < 7.07106781186547 ? horner(TOP, x) / horner(BOTTOM, x) : fraction(x));
  return z > 0 ? 1 - tail : tail;
}

function horner(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const c of coefficients) sum = sum * x + c;
  return sum;
}

/** Continued fraction of the far tail. */
function fraction(x: number): number {
  return 1 / (x + 1 / (x + 2 / (x + 3 / (x + 4 / (x + 0.65))))) / Math.sqrt(2 * Math.PI);
}
