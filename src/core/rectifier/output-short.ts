import { displayWords, seenWith } from "./display";
import { sentences } from "./words";
import type { PartState } from "../judgement/types";
import type { Meter } from "../judgement/meter";
import type { Measured } from "../readings/types";

export interface PartCheck {
  readonly state: PartState;
  readonly reason: string;
  readonly next: string;
}

/** Below this between B+ and ground [V] something other than two junctions in series conducts. @source common-practice */
const LESS_THAN_ONE_JUNCTION = 0.3;

/**
 * Judges B+ against ground, read both ways on the diode check with the unit unplugged: metal both
 * ways is a short; red on ground shows two junctions in series, red on B+ blocks or shows the
 * control circuits.
 *
 * @param onBplus - Reading with the red lead on B+ [V]
 * @param onGround - Reading with the red lead on ground [V]
 * @param meter - The meter that took them
 * @source common-practice two junctions in series from ground to B+
 */
export function judgeOutputShort(onBplus: Measured | null, onGround: Measured | null, meter?: Meter): PartCheck {
  const seen = seenWith(meter ? { meter } : {});
  const [plus, ground] = [seen(onBplus), seen(onGround)];
  const words = `B+ to ground reads ${displayWords(plus)} with red on B+ and ${displayWords(ground)} with red on ground`;
  const make = (state: PartState, more: string, next: string): PartCheck => ({
    state,
    reason: sentences([`${words}${more}`]),
    next: sentences([next]),
  });
  if (plus.shows === "zero" && ground.shows === "zero") {
    return make(
      "faulty",
      ": shorted",
      "read it once more with firm contact; if it stays, replace the regulator-rectifier",
    );
  }
  if (plus.shows === "nothing" || ground.shows === "nothing") {
    const near = plus.shows === "zero" || ground.shows === "zero";
    return make(
      near ? "suspect" : "unproven",
      "",
      near ? "read it the other way round: near zero both ways is a short" : "read it both ways",
    );
  }
  if (plus.shows === "zero" || ground.shows === "zero") {
    return make("suspect", ": near zero one way only", "clean both terminals and read it both ways again");
  }
  if (plus.shows === "volts" && plus.volts < LESS_THAN_ONE_JUNCTION) {
    return make(
      "suspect",
      ": less than one junction where it should block",
      "compare with a known-good part of the same number",
    );
  }
  if (ground.shows === "volts" && ground.volts < LESS_THAN_ONE_JUNCTION) {
    return make("unproven", ": less than two junctions in series", "compare with a known-good part of the same number");
  }
  return make("serviceable", ": no short", "go on with the diode check of each phase");
}

/** Resistance to the case from which on a terminal counts as insulated [Ω]. @source common-practice */
const INSULATED = 1e6;
/** Up to here a terminal and the case are one piece of metal [Ω]. @source common-practice */
const ONE_PIECE = 10;

/**
 * Judges the lowest resistance from a terminal to the case, unit unplugged.
 *
 * @param lowest - Reading [Ω], over-range welcome
 * @source common-practice 1 MΩ
 */
export function judgeCaseLeakage(lowest: Measured | null): PartCheck {
  const make = (state: PartState, reason: string, next: string): PartCheck => ({
    state,
    reason: sentences([reason]),
    next: sentences([next]),
  });
  const read = "read every terminal to the case on the highest ohm range";
  if (!lowest) return make("unproven", "Terminals to the case were not read", read);
  if (
    lowest.kind === "overload" ||
    ((lowest.kind === "number" || lowest.kind === "above") && lowest.value >= INSULATED)
  ) {
    return make("serviceable", "Every terminal is insulated from the case", "nothing more here");
  }
  if (lowest.kind === "above")
    return make(
      "unproven",
      `The lowest terminal lies above ${ohms(lowest.value)} to the case, which does not settle it`,
      read,
    );
  if (lowest.kind !== "number" && lowest.kind !== "below")
    return make("unproven", "Terminals to the case were not read", read);
  if (lowest.value <= ONE_PIECE) {
    return make(
      "unproven",
      `A terminal reads ${ohms(lowest.value)} to the case, as the ground terminal does where the case is the ground`,
      "leave the ground terminal out and read the others; any other terminal so low is shorted to the case",
    );
  }
  return make(
    "suspect",
    `A terminal reads ${ohms(lowest.value)} to the case, less than ${ohms(INSULATED)}`,
    "clean and dry the unit, swap the leads and read again: a leak reads the same both ways, a junction to a grounded case does not",
  );
}

function ohms(value: number): string {
  if (value >= 1e6) return `${Number((value / 1e6).toPrecision(3))} MΩ`;
  return value >= 1e3 ? `${Number((value / 1e3).toPrecision(3))} kΩ` : `${Number(value.toPrecision(3))} Ω`;
}
