import { topOf, TYPICAL_HANDHELD } from "../judgement/meter";
import type { Measured } from "../readings/types";
import type { DiodeCheck } from "./types";

/** What the meter showed, as far as a diode check needs it. */
export type Display =
  | { readonly shows: "nothing" }
  | { readonly shows: "over-range" }
  /** Nothing between the leads but metal. */
  | { readonly shows: "zero"; readonly volts: number }
  | { readonly shows: "volts"; readonly volts: number };

const NOTHING: Display = { shows: "nothing" };
const OVER_RANGE: Display = { shows: "over-range" };

/**
 * Highest reading that stands for metal and not for a junction [V]: a short shows 0.000 to 0.003 V,
 * a few ohms of leads and contacts add some millivolts at the meter's 1 mA.
 */
const ZERO_AT_MOST = 0.01;

/** A meter whose display ends below this [V] does not open a silicon junction, so its OL says nothing. */
const OPENS_A_JUNCTION = 1;

/** From here up a display is as good as over-range [V]: no single device drops so much. @source diode-check-band */
const AS_GOOD_AS_OVER = 2;

export function meterTop({ meter = TYPICAL_HANDHELD }: Pick<DiodeCheck, "meter">): number {
  return topOf(meter, "diode");
}

export function opensJunctions(check: Pick<DiodeCheck, "meter">): boolean {
  return meterTop(check) >= OPENS_A_JUNCTION;
}

/** Turns one cell of a diode check into what the display showed; what cannot be used counts as not read. */
export type Seen = (measured: Measured | null | undefined) => Display;

/** How the meter of a check shows its readings. */
export function seenWith(check: Pick<DiodeCheck, "meter">): Seen {
  const opens = opensJunctions(check);
  return (measured) => displayOf(measured, opens);
}

function displayOf(measured: Measured | null | undefined, opens: boolean): Display {
  switch (measured?.kind) {
    case "overload":
      return opens ? OVER_RANGE : NOTHING;
    case "above":
      return measured.value >= OPENS_A_JUNCTION ? OVER_RANGE : NOTHING;
    case "below":
      return measured.value <= ZERO_AT_MOST ? { shows: "zero", volts: measured.value } : NOTHING;
    case "number":
      if (measured.value >= AS_GOOD_AS_OVER) return OVER_RANGE;
      return { shows: Math.abs(measured.value) <= ZERO_AT_MOST ? "zero" : "volts", volts: measured.value };
    default:
      return NOTHING;
  }
}

/** The reading as it stands on a display. */
export function displayWords(display: Display): string {
  if (display.shows === "nothing") return "not read";
  return display.shows === "over-range" ? "OL" : `${display.volts.toFixed(3)} V`;
}
