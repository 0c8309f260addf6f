import { numberWords } from "../judgement/words";
import { entriesOfCheck } from "../readings/catalogue";
import type { Entry, Job, Measured } from "../readings/types";

/** What a check's readings say, as a technician would read them out: sisters side by side. */
export function readingWords(job: Job, checkId: string): string {
  const groups = new Map<string, { values: string[]; unit: string }>();
  for (const entry of entriesOfCheck(checkId)) {
    const measured = job.get(entry.id);
    if (measured === undefined || entry.kind === "text" || SILENT.has(entry.id)) continue;
    const head = headOf(entry);
    const group = groups.get(head) ?? { values: [], unit: "" };
    const { value, unit } = split(entry, measured);
    group.values.push(value);
    if (unit !== "") group.unit = unit;
    groups.set(head, group);
  }
  return [...groups].map(([head, { values, unit }]) => `${head} ${values.join(" / ")}${unit}`).join(", ");
}

/** Conditions of a reading are no evidence by themselves. */
const SILENT = new Set([
  "hours-rested",
  "load-test-seconds",
  "meter-ohm-step",
  "load-test-recharged",
  "idle-rpm",
  "test-rpm",
  "no-load-rpm",
  "battery-temperature",
]);

/** "Upper, forward, phase A" and its sisters go by the words that they share. */
function headOf(entry: Entry): string {
  return entry.label.replace(/, (?:phase |cell )?(?:[ABC]|[A-C]–[A-C]|\d)$/u, "").replace(/ phase [ABC]\b/u, " phase");
}

/** One value with its unit, `OL` as it stands on the display. */
export function valueWords(entry: Entry, measured: Measured): string {
  const { value, unit } = split(entry, measured);
  return `${value}${unit}`;
}

function split(entry: Entry, measured: Measured): { readonly value: string; readonly unit: string } {
  const unit =
    entry.kind === "quantity" && entry.unit !== "1" && entry.unit !== "SG"
      ? ` ${entry.unit === "V AC" ? "V" : entry.unit}`
      : "";
  switch (measured.kind) {
    case "number":
      return { value: digits(measured.value, entry), unit };
    case "overload":
      return { value: "OL", unit: "" };
    case "above":
      return { value: `over ${digits(measured.value, entry)}`, unit };
    case "below":
      return { value: `under ${digits(measured.value, entry)}`, unit };
    case "choice":
    case "text":
      return { value: measured.value, unit: "" };
  }
}

function digits(value: number, entry: Entry): string {
  const decimals = entry.kind === "quantity" ? entry.decimals : 2;
  return numberWords(value, { unit: "1", decimals: Math.abs(value) >= 1000 ? 0 : decimals });
}
