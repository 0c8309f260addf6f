import { HYPOTHESES, SINGLES } from "./hypotheses";

/**
 * A machine can be in order in more ways than one: its battery charged, or merely run down. Readings may fit one of them
 * as well as any fault though all together hardly do, because the others are nearly all of the chance beforehand.
 */
const WAYS = SINGLES.filter((h) => h.fault === "healthy").map(({ share, variant }) => ({
  share,
  places: HYPOTHESES.flatMap((h, i) => (h.fault === "healthy" && h.variant === variant ? [i] : [])),
}));

/**
 * How many times more the readings have raised the way of being in order that they fit best than all of them together.
 *
 * @param hypotheses - Chances with all readings, in the order of `HYPOTHESES`
 */
export function soundFit(hypotheses: Float64Array): number {
  let chance = 0;
  let most = 0;
  for (const { share, places } of WAYS) {
    const own = places.reduce((sum, i) => sum + hypotheses[i]!, 0);
    chance += own;
    most = Math.max(most, own / share);
  }
  return chance > 0 ? most / chance : 0;
}
