/** A linear scale from values to drawing units, with round ticks. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  readonly decimals: number;
  at(value: number): number;
}

const STEPS = [1, 2, 5];

/**
 * Makes a scale that holds every value with a little room, on round steps.
 *
 * @param values - What must be visible; at least one finite number
 * @param range - Drawing units of the scale's two ends
 * @param wanted - About how many ticks
 */
export function scaleOver(values: readonly number[], range: readonly [number, number], wanted = 5): Scale {
  const finite = values.filter(Number.isFinite);
  let low = Math.min(...finite);
  let high = Math.max(...finite);
  if (finite.length === 0) [low, high] = [0, 1];
  if (high - low < 1e-9 * Math.max(1, Math.abs(high))) {
    const room = Math.abs(high) < 1e-9 ? 1 : Math.abs(high) * 0.1;
    [low, high] = [low - room, high + room];
  }
  const room = (high - low) * 0.08;
  const raw = (high - low + 2 * room) / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * (STEPS.find((s) => s * power >= raw) ?? 10);
  // A scale of quantities that cannot be negative does not run below zero for the sake of room.
  const from = low >= 0 ? Math.max(0, Math.floor((low - room) / step) * step) : Math.floor((low - room) / step) * step;
  const to = Math.ceil((high + room) / step) * step;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const ticks: number[] = [];
  for (let i = 0; from + i * step <= to + step / 1000; i++) ticks.push(Number((from + i * step).toFixed(decimals + 1)));
  const [a, b] = range;
  return { from, to, ticks, decimals, at: (value) => a + ((value - from) / (to - from)) * (b - a) };
}
