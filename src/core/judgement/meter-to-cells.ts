import type { Cell } from "../cell";
import type { Meter } from "./meter";
import { METER_WORDS } from "./meter-words";

/** Header of a meter's rows on a Settings sheet, in the order in which they are read back. */
export const METER_HEADER = ["Function", "Up to", "± %", "± counts", "Smallest step", "Unit"] as const;

/** A meter's accuracy as cells, header first: what a Settings sheet starts with and the shop changes. */
export function meterToCells(meter: Meter): readonly (readonly Cell[])[] {
  return [
    METER_HEADER,
    ...meter.ranges.map(({ of, upTo, percent, counts, resolution }) => {
      const { label, unit } = METER_WORDS[of];
      return [label, upTo, percent, counts, resolution, unit];
    }),
  ];
}
