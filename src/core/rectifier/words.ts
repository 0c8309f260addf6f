import { forwardRange, where, type BankView } from "./bank";
import type { BridgeKind, DiodeFinding, DiodesJudged } from "./types";

export const REGULATING_SIDE =
  "The check shows the power devices only: judge the regulating side by the running voltage";

export function swappedLeads(swapped: DiodesJudged["leadsSwapped"]): string {
  if (swapped === "no") return "";
  return swapped === "both banks"
    ? "Red and black were swapped: forward and reverse stand in each other's rows and are judged the right way round"
    : `Red and black were swapped in the ${swapped} bank: its forward and reverse rows are judged the right way round`;
}

export const KIND_WORDS: Readonly<Record<BridgeKind, string>> = {
  "plain diodes": "six plain diodes read",
  "parallel path": "a unit with a parallel path in its upper bank reads",
  "parallel path lower": "a unit with a parallel path in its lower bank reads",
  "controlled upper": "a unit with a controlled upper bank reads",
  "controlled lower": "a unit with a controlled lower bank reads",
  mosfet: "transistors with body diodes read",
  unknown: "plain diodes read",
};

export function healthyWords(upper: BankView, lower: BankView, like: string): string {
  return `${[upper, lower].map(bankWords).join("; ")}: as ${like}`;
}

export function partsWords(count: number): string {
  return count === 1
    ? "the known-good part of the same number reads"
    : `${count} known-good parts of the same number read`;
}

export function leftOut(count: number): string {
  return count === 0
    ? ""
    : `${count} of the known-good parts read${count === 1 ? "s" : ""} faulty and ${count === 1 ? "is" : "are"} left out`;
}

function bankWords(view: BankView): string {
  const conducting = where(view, (d) => d.forward.shows === "volts");
  if (conducting.length === 0) return `${view.bank} bank OL both ways`;
  const blocks = view.devices.every((d) => d.reverse.shows === "over-range");
  return `${view.bank} bank ${forwardRange(view, conducting)} forward${blocks ? ", OL in reverse" : ""}`;
}

export function hiddenBy(upper: BankView, lower: BankView, kind: BridgeKind): string[] {
  return [upper, lower].flatMap((view) => {
    if (view.forward.includes("parallel path")) {
      return [
        `An open ${view.bank} device would hide behind the parallel path: AC under load and ripple would show it.`,
      ];
    }
    const controlled = kind === `controlled ${view.bank}` && view.forward.every((state) => state === "blocks");
    return controlled ? [`Whether the ${view.bank} devices fire does not show: AC under load would show it.`] : [];
  });
}

export function sentences(parts: readonly string[]): string {
  return parts
    .filter((part) => part !== "")
    .map((part) => `${part[0]!.toUpperCase()}${part.slice(1)}.`)
    .join(" ");
}

export function reasonsOf(findings: readonly DiodeFinding[]): string[] {
  const rest = findings.length - 2;
  return [
    ...findings.slice(0, 2).map((finding) => finding.words),
    rest > 0 ? `${rest} more finding${rest > 1 ? "s" : ""}` : "",
  ];
}
