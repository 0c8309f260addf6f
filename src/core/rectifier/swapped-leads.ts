import type { Seen } from "./display";
import { BANKS, type Bank, type DiodeBlock, type Row } from "./types";

export const FORWARD: Readonly<Record<Bank, Row>> = { upper: "upperForward", lower: "lowerForward" };
export const REVERSE: Readonly<Record<Bank, Row>> = { upper: "upperReverse", lower: "lowerReverse" };

export type SwappedLeads = "no" | "both banks" | Bank;

/**
 * Tells whether forward and reverse were exchanged: every device that lets current one way lets it
 * the wrong way. One device alone may be a slip of that reading; two that agree are the leads.
 * Shorted devices and such that block both ways look the same either way and do not count.
 */
export function hasSwappedLeads(block: DiodeBlock, seen: Seen): SwappedLeads {
  const [upper, lower] = BANKS.map((bank) => directions(block, bank, seen)) as [Directions, Directions];
  if (upper.wrong + lower.wrong >= 2 && upper.right + lower.right === 0) return "both banks";
  if (upper.wrong >= 2 && upper.right === 0) return "upper";
  if (lower.wrong >= 2 && lower.right === 0) return "lower";
  return "no";
}

interface Directions {
  readonly right: number;
  readonly wrong: number;
}

function directions(block: DiodeBlock, bank: Bank, seen: Seen): Directions {
  let [right, wrong] = [0, 0];
  block[FORWARD[bank]].forEach((cell, phase) => {
    const forward = seen(cell).shows;
    const reverse = seen(block[REVERSE[bank]][phase]).shows;
    if (forward === "volts" && reverse === "over-range") right++;
    if (forward === "over-range" && reverse === "volts") wrong++;
  });
  return { right, wrong };
}

/** The block with forward and reverse of the swapped banks put back. */
export function uncrossed<T>(block: Readonly<Record<Row, T>>, swapped: SwappedLeads): Readonly<Record<Row, T>> {
  const out: Record<Row, T> = { ...block };
  for (const bank of BANKS) {
    if (swapped !== "both banks" && swapped !== bank) continue;
    [out[FORWARD[bank]], out[REVERSE[bank]]] = [block[REVERSE[bank]], block[FORWARD[bank]]];
  }
  return out;
}
