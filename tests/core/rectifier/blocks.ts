import type { DiodeBlock } from "../../../src/core/rectifier/types";
import type { Measured } from "../../../src/core/readings/types";

/** A diode check as a technician writes it: volts, "OL", or blank. */
export type Written = number | "OL" | null;

export function reading(written: Written): Measured | null {
  if (written === null) return null;
  return written === "OL" ? { kind: "overload" } : { kind: "number", value: written };
}

/** Rows: upper forward, lower forward, upper reverse, lower reverse. */
export function block(
  rows: readonly [readonly Written[], readonly Written[], readonly Written[], readonly Written[]],
): DiodeBlock {
  const [upperForward, lowerForward, upperReverse, lowerReverse] = rows.map((row) => row.map(reading)) as [
    (Measured | null)[],
    (Measured | null)[],
    (Measured | null)[],
    (Measured | null)[],
  ];
  return { upperForward, lowerForward, upperReverse, lowerReverse };
}
