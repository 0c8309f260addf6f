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
  const tail = x > 37 ? 0 : Math.exp((-x * x) / 2) * (x < 7.07106781186547 ? middle(x) : fraction(x));
  return z > 0 ? 1 - tail : tail;
}

/** The rational approximation, written out: it is asked hundreds of times for each machine of a fleet. */
function middle(x: number): number {
  const top =
    (((((3.52624965998911e-2 * x + 0.700383064443688) * x + 6.37396220353165) * x + 33.912866078383) * x +
      112.079291497871) *
      x +
      221.213596169931) *
      x +
    220.206867912376;
  const bottom =
    ((((((8.83883476483184e-2 * x + 1.75566716318264) * x + 16.064177579207) * x + 86.7807322029461) * x +
      296.564248779674) *
      x +
      637.333633378831) *
      x +
      793.826512519948) *
      x +
    440.413735824752;
  return top / bottom;
}

/** Continued fraction of the far tail. */
function fraction(x: number): number {
  return 1 / (x + 1 / (x + 2 / (x + 3 / (x + 4 / (x + 0.65))))) / Math.sqrt(2 * Math.PI);
}
