import type { CellFormat, ColourRule } from "./port";
import { charactersOf } from "./text-lines";

/** One calm look for every sheet: one accent, tinted input cells, states as words with a colour behind. */
export const LOOK = {
  title: { bold: true, size: 15, colour: "1F4E5F" },
  note: { size: 9, colour: "555555", wrap: true, vertical: "top" },
  heading: { bold: true, size: 10, colour: "FFFFFF", fill: "1F4E5F", vertical: "middle" },
  stage: { bold: true, size: 11, colour: "1F4E5F", fill: "DCE6EA", vertical: "top" },
  columnHead: { bold: true, size: 9, fill: "DCE6EA", wrap: true, vertical: "middle", border: "bottom" },
  step: { bold: true, size: 10, fill: "EEF3F5", vertical: "top" },
  how: { size: 9, colour: "444444", fill: "EEF3F5", wrap: true, vertical: "top" },
  caution: { size: 9, colour: "8A3B00", fill: "FDF1E3", wrap: true, vertical: "top" },
  label: { size: 10, vertical: "middle" },
  input: { size: 10, fill: "FFFBE8", border: "all", vertical: "middle" },
  quiet: { size: 9, colour: "666666", vertical: "middle" },
  answer: { size: 10, vertical: "middle" },
  headline: { size: 14, bold: true, colour: "1F4E5F", wrap: true, vertical: "middle" },
  prose: { size: 9, wrap: true, vertical: "top" },
  evidence: { size: 9, wrap: true, vertical: "top" },
  reason: { size: 9, colour: "555555", wrap: true, vertical: "middle" },
  fine: { size: 7 },
  oneLine: { size: 9, vertical: "middle" },
  working: { size: 8, colour: "9AA5AA" },
  line: { border: "bottom", vertical: "bottom" },
} as const satisfies Record<string, CellFormat>;

/**
 * Labels stay on their lines in a column of so many characters, all of them smaller where they must; not smaller than
 * `least`.
 */
export function labelLook(labels: readonly string[], width: number, least = 7) {
  const sizes = [LOOK.label.size, 9, 8, 7].filter((size) => size >= least);
  const fits = sizes.find((size) => labels.every((label) => charactersOf(label, size) <= width));
  return { ...LOOK.label, size: fits ?? least };
}

/** Shape of a state, so that it prints in grey and reads without colour. */
export const MARKS = { pass: "✓", fail: "✗", unsure: "?" } as const;

const GOOD = { fill: "DDF0E0", colour: "14532D" };
const BAD = { fill: "F8D7D4", colour: "7F1D1D" };
const OPEN = { fill: "FCEFC9", colour: "6B4E00" };
const NEUTRAL = { fill: "ECEFF1", colour: "37474F" };

/** What the state of one reading can be. */
export const READING_COLOURS: ColourRule["words"] = [
  { equals: "pass", ...GOOD },
  { equals: "fail", ...BAD },
  { equals: "unsure", ...OPEN },
];

/** What the state of a part can be. */
export const PART_COLOURS: ColourRule["words"] = [
  { equals: "serviceable", ...GOOD },
  { equals: "faulty", ...BAD },
  { equals: "suspect", ...OPEN },
  { equals: "unproven", ...NEUTRAL },
];

export const READING_STATES: readonly string[] = [...READING_COLOURS.map(({ equals }) => equals), "not read"];
export const PART_STATES: readonly string[] = [...PART_COLOURS.map(({ equals }) => equals), "not read"];
