import { CAUTIONS } from "../core/readings/cautions";
import { stepsOf } from "../core/readings/check-steps";
import { checkOf, entryOf } from "../core/readings/catalogue";
import { signed } from "../core/signed";
import type { Entry } from "../core/readings/types";
import type { ValidationRule } from "./port";
import { ENGLISH, type SheetLanguage } from "./sheet-language";

/** What one cell for a catalogue entry shows and accepts; everything here comes from the catalogue. */

/** Hosts cut longer hints off. */
const HINT_LENGTH = 255;
const TITLE_LENGTH = 32;

export function entryById(id: string): Entry {
  const entry = entryOf(id);
  if (!entry) throw new Error(`No catalogue entry "${id}".`);
  return entry;
}

/** The unit as a sheet shows it; shares and specific gravity carry none. */
export function unitOf(entry: Entry): string {
  return entry.kind === "quantity" && entry.unit !== "1" ? entry.unit : "";
}

/** A column's header: the label, and the unit in brackets where there is one. */
export function headerOf(entry: Entry, { say }: SheetLanguage = ENGLISH): string {
  const unit = unitOf(entry);
  return unit === "" ? say(entry.label) : `${say(entry.label)} [${unit}]`;
}

/** Keeps what is typed as it is typed: 0170 a phone number, 3-12 a part number and no day in March. */
export const AS_TYPED = "@";

/** Entries that are days: shown as such, whatever number a sheet keeps for them. */
const DAYS: ReadonlySet<string> = new Set(["visit-date", "battery-fitted"]);

export const isDay = ({ id }: Entry): boolean => DAYS.has(id);

/** Sentences, which nothing makes a number of; some hosts show none in a cell for text that are longer than 255 characters. */
const PROSE = "complaint";

export function numberFormatOf(entry: Entry): string {
  if (isDay(entry)) return "yyyy-mm-dd";
  if (entry.kind === "text" && entry.id !== PROSE) return AS_TYPED;
  if (entry.kind !== "quantity") return "General";
  return entry.decimals === 0 ? "0" : `0.${"0".repeat(entry.decimals)}`;
}

/** A pick list for a choice; a hint beside the cell for a reading; nothing for text. */
export function ruleOf(entry: Entry, { say, choice: typed }: SheetLanguage): ValidationRule | undefined {
  if (entry.kind === "text") return undefined;
  if (entry.kind === "choice") {
    return {
      kind: "list",
      choices: entry.choices.map(({ value }) => typed(value)),
      message: clip(
        `${say(entry.label)}: ${entry.choices.map(({ value, label }) => `${typed(value)} = ${say(label)}`).join("; ")}`,
        HINT_LENGTH,
      ),
    };
  }
  const unit = unitOf(entry);
  const range = say(`${signed(String(entry.min))} to ${entry.max > 1e6 ? "over-range" : entry.max}${unit && ` ${unit}`}`);
  const accepts = entry.overload ? `${range}; ${say("OL where the meter shows over-range.")}` : `${range}.`;
  const check = entry.check === undefined ? undefined : checkOf(entry.check);
  return {
    kind: "hint",
    title: clip(say(entry.label), TITLE_LENGTH),
    message: sentences([
      accepts,
      ...[...(check?.cautions ?? []).map((id) => CAUTIONS[id]), ...stepsOf(entry.check ?? "")].map(say),
    ]),
  };
}

/** As many whole sentences as a hint holds. */
function sentences(all: readonly string[]): string {
  let text = "";
  for (const sentence of all) {
    const longer = text === "" ? sentence : `${text} ${sentence}`;
    if (longer.length <= HINT_LENGTH) text = longer;
  }
  return text;
}

function clip(text: string, length: number): string {
  return text.length <= length ? text : `${text.slice(0, length - 1)}…`;
}
