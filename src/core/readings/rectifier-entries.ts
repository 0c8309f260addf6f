import { PHASES, quantityOf } from "./entries";
import type { Entry } from "./types";

const diode = quantityOf("regulator-rectifier", "diode-check");
const OVER = { meter: "diode", overload: true } as const;
const BANKS = [
  ["upper-forward", "Upper, forward"],
  ["lower-forward", "Lower, forward"],
  ["upper-reverse", "Upper, reverse"],
  ["lower-reverse", "Lower, reverse"],
] as const;

/** Diode check of the unplugged regulator-rectifier: four rows of three phases, then B+ and case. */
export const RECTIFIER: readonly Entry[] = [
  ...BANKS.flatMap(([bank, label]) =>
    PHASES.map((phase) =>
      diode(`${bank}-${phase}`, `${label}, phase ${phase.toUpperCase()}`, "V", [0, 4], 3, {
        ...OVER,
        synonyms: [`${bank.replace("-", " ")} ${phase}`, `${label} ${phase}`],
      }),
    ),
  ),
  quantityOf("regulator-rectifier", "output-short")(
    "output-to-ground",
    "B+ to ground, red lead on B+",
    "V",
    [0, 4],
    3,
    { ...OVER, synonyms: ["b+ to ground", "b+ to b-", "output to ground"] },
  ),
  quantityOf("regulator-rectifier", "output-short")(
    "output-to-ground-swapped",
    "B+ to ground, red lead on ground",
    "V",
    [0, 4],
    3,
    { ...OVER, synonyms: ["ground to b+", "b- to b+", "output to ground swapped"] },
  ),
  quantityOf("regulator-rectifier", "case-leakage")("case-leakage", "Lowest terminal to case", "Ω", [0, 1e12], 0, {
    meter: "ohms",
    overload: true,
    synonyms: ["terminal to case", "case leak"],
  }),
];
