/** L-stable two-stage implicit step (SDIRK2); both stages share one matrix. */
export const GAMMA = 1 - Math.SQRT1_2;

/** Steps of one electrical period, a multiple of three. */
export const STEPS = 48;
/** A step in which a device starts or stops conducting is gone through again in this many parts. */
export const PARTS = 8;

/**
 * Sines of θ, 5θ and 7θ at both stages of each of `steps` steps, phases 120° apart; index
 * (step·2 + stage)·3 + phase.
 */
function sines(steps: number): readonly [Float64Array, Float64Array, Float64Array] {
  return [1, 5, 7].map((n) => {
    const table = new Float64Array(steps * 6);
    for (let k = 0; k < steps * 6; k++) {
      const step = Math.floor(k / 6);
      const at = k % 6 < 3 ? GAMMA : 1;
      table[k] = Math.sin(2 * Math.PI * n * ((step + at) / steps - (k % 3) / 3));
    }
    return table;
  }) as unknown as readonly [Float64Array, Float64Array, Float64Array];
}

export const COARSE = sines(STEPS);
export const FINE = sines(STEPS * PARTS);
