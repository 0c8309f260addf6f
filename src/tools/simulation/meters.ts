import type { Random } from "./random";

/** The meters of one technician on one day: each function a little off, the last digits loose. */
export interface Meters {
  readonly gain: Readonly<Record<MeterKind, number>>;
  readonly ohmStep: number;
  readonly leadsOhms: number;
}

export type MeterKind = "dc" | "ac" | "ohm" | "diode" | "clamp" | "milliamp";

/** ±% of reading (fixed for the day) and ± counts (loose each time): common hand-held meters. */
const ACCURACY: Readonly<Record<MeterKind, readonly [percent: number, counts: number]>> = {
  dc: [0.5, 2],
  ac: [1, 3],
  ohm: [0.8, 2],
  diode: [1, 2],
  clamp: [2, 3],
  milliamp: [1, 2],
};

export function drawMeters(random: Random): Meters {
  const gain = Object.fromEntries(
    Object.entries(ACCURACY).map(([kind, [percent]]) => [kind, 1 + random.between(-percent, percent) / 100]),
  ) as Record<MeterKind, number>;
  return { gain, ohmStep: random.chance(0.65) ? 0.01 : 0.1, leadsOhms: random.between(0.1, 0.3) };
}

/** Step of the last digit of a 6000-count display at this reading. */
function displayStep(kind: MeterKind, value: number, meters: Meters): number {
  const size = Math.abs(value);
  switch (kind) {
    case "ohm":
      return size < 600 ? meters.ohmStep : 10 ** (Math.floor(Math.log10(size / 6)) - 2);
    case "diode":
      return 0.001;
    case "clamp":
      return 0.1;
    case "milliamp":
      return size < 60 ? 0.1 : 1;
    default:
      return size < 1 ? 0.001 : size < 60 ? 0.01 : 0.1;
  }
}

/** What the display shows. */
export function show(kind: MeterKind, value: number, meters: Meters, random: Random): number {
  const step = displayStep(kind, value, meters);
  const [, counts] = ACCURACY[kind];
  const off = value * meters.gain[kind] + random.between(-counts, counts) * step;
  return Number((Math.round(off / step) * step).toFixed(4));
}
