import { entriesOfCheck } from "../readings/catalogue";
import type { Entry, Job, Measured } from "../readings/types";

/** What a check's readings say, as a technician would read them out. */
export function readingWords(job: Job, checkId: string): string {
  const said: string[] = [];
  let group = "";
  for (const entry of entriesOfCheck(checkId)) {
    const measured = job.get(entry.id);
    if (measured === undefined || entry.kind === "text" || SILENT.has(entry.id)) continue;
    // "No-load AC, A–B" and its sisters share the words before the comma.
    const comma = entry.label.lastIndexOf(", ");
    const head = comma < 0 ? entry.label : entry.label.slice(0, comma);
    const tail = comma < 0 ? "" : `${entry.label.slice(comma + 2)} `;
    said.push(head === group && tail !== "" ? `${tail}${valueWords(entry, measured)}` : `${head} ${tail}${valueWords(entry, measured)}`);
    group = head;
  }
  return said.join(", ");
}

/** Conditions of a reading are no evidence by themselves. */
const SILENT = new Set(["hours-rested", "load-test-seconds", "meter-ohm-step", "load-test-recharged"]);

export function valueWords(entry: Entry, measured: Measured): string {
  const unit = entry.kind === "quantity" && entry.unit !== "1" && entry.unit !== "SG" ? ` ${entry.unit === "V AC" ? "V" : entry.unit}` : "";
  switch (measured.kind) {
    case "number":
      return `${numberWords(measured.value, entry)}${unit}`;
    case "overload":
      return "OL";
    case "above":
      return `over ${numberWords(measured.value, entry)}${unit}`;
    case "below":
      return `under ${numberWords(measured.value, entry)}${unit}`;
    case "choice":
    case "text":
      return measured.value;
  }
}

function numberWords(value: number, entry: Entry): string {
  const decimals = entry.kind === "quantity" ? entry.decimals : 2;
  return Math.abs(value) >= 1000 ? String(Math.round(value)) : value.toFixed(decimals);
}
