import { meterTop, opensJunctions, type Seen } from "./display";
import { PHASE_NAMES, ROWS, type DiodeBlock, type DiodeCheck, type DiodeFinding, type Row } from "./types";

/** Findings about the block as a whole and about how it was read. */
export function findInBlock(block: DiodeBlock, seen: Seen, check: DiodeCheck): DiodeFinding[] {
  return [...allMetal(block, seen), ...meterCannot(block, check), ...gaps(block, seen)];
}

/** Every reading near zero: leads that touch, or a meter on the wrong function, read so. */
function allMetal(block: DiodeBlock, seen: Seen): DiodeFinding[] {
  const read = ROWS.flatMap((row) => block[row].map((cell) => seen(cell))).filter(
    (display) => display.shows !== "nothing",
  );
  if (read.length < 4 || read.some((display) => display.shows !== "zero")) return [];
  return [
    {
      weight: "suspect",
      phases: [],
      state: "short",
      words: "Every reading is near zero: touching leads or a wrong meter function read so too",
      next: "hold the leads apart, where the display must show OL, and read again; if every reading stays near zero, the unit is shorted throughout",
    },
  ];
}

function meterCannot(block: DiodeBlock, check: DiodeCheck): DiodeFinding[] {
  const over = ROWS.some((row) => block[row].some((cell) => cell?.kind === "overload"));
  if (opensJunctions(check) || !over) return [];
  return [
    {
      weight: "unproven",
      phases: [],
      state: "not read",
      words: `This meter shows over-range above ${meterTop(check)} V and does not open a silicon junction, so its OL proves nothing`,
      next: "use the diode check of a meter that reads to 2 V",
    },
  ];
}

/** What was not read leaves the part unproven, whatever the rest shows. */
function gaps(block: DiodeBlock, seen: Seen): DiodeFinding[] {
  const missing = ROWS.map((row) => ({
    row,
    phases: block[row].flatMap((cell, i) => (seen(cell).shows === "nothing" ? [PHASE_NAMES[i]!] : [])),
  })).filter(({ phases }) => phases.length > 0);
  if (missing.length === 0) return [];
  const all = ROWS.every((row) => missing.some((gap) => gap.row === row && gap.phases.length === block[row].length));
  const words = missing.map(({ row, phases }) => `${ROW_WORDS[row]} ${phases.join(", ")}`).join("; ");
  return [
    {
      weight: "unproven",
      phases: PHASE_NAMES.filter((phase) => missing.some((gap) => gap.phases.includes(phase))),
      state: "not read",
      words: all ? "Nothing was read" : `Not read: ${words}`,
      next: all ? "take the diode check, unit unplugged on both sides" : `read ${words}`,
    },
  ];
}

export const ROW_WORDS: Readonly<Record<Row, string>> = {
  upperForward: "upper forward",
  lowerForward: "lower forward",
  upperReverse: "upper reverse",
  lowerReverse: "lower reverse",
};

/** Worst first; a finding about more readings before one about fewer. */
export function weighed(findings: readonly DiodeFinding[]): DiodeFinding[] {
  const order = ["faulty", "suspect", "unproven"] as const;
  if (findings.some((finding) => finding.phases.length === 0 && finding.weight === "suspect")) {
    // The whole block speaks against the way it was read: no single reading of it counts.
    return findings
      .filter((finding) => finding.phases.length === 0)
      .sort((a, b) => order.indexOf(a.weight) - order.indexOf(b.weight));
  }
  return [...findings].sort((a, b) => order.indexOf(a.weight) - order.indexOf(b.weight));
}

/** A phase that is open in both banks is open at its terminal, not twice inside. */
export function openLegs(findings: readonly DiodeFinding[]): DiodeFinding[] {
  const opens = findings.filter((finding) => finding.state === "open" && finding.phases.length === 1);
  const legs = PHASE_NAMES.filter((phase) => opens.filter((finding) => finding.phases[0] === phase).length === 2);
  const single = findings.filter((finding) => !(opens.includes(finding) && legs.includes(finding.phases[0]!)));
  return [
    ...legs.map((phase): DiodeFinding => {
      const both = opens.filter((finding) => finding.phases[0] === phase);
      return {
        weight: both.some((finding) => finding.weight === "faulty") ? "faulty" : "suspect",
        phases: [phase],
        state: "open",
        words: `Phase ${phase} conducts in neither bank while its sisters do: open at its terminal or lead inside the unit`,
        next: `clean terminal ${phase} to bare metal and read it again; if it stays OL, replace the regulator-rectifier`,
      };
    }),
    ...single,
  ];
}
