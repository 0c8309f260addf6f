import { distance } from "fastest-levenshtein";
import { CATALOGUE } from "./catalogue";
import { SPANISH_LABELS } from "./spanish-labels";
import type { Entry } from "./types";
import { isUnitWordFor } from "./units";

/** A label of somebody's sheet, recognised. */
export interface LabelMatch {
  readonly entry: Entry;
  /** Unit written with the label, `Draw (mA)`; bare numbers under it are in this unit. */
  readonly unit?: string;
  /** 1 for the id, the label or a synonym as it stands; less for a misspelling. */
  readonly confidence: number;
}

interface Name {
  readonly entry: Entry;
  /** Letters and numbers that tell the name from its neighbours, in order. */
  readonly telltales: string;
  readonly joined: string;
}

/** Letters of phases and pairs and numbers of cells tell entries apart: they are never guessed. */
const TELLTALE = /^(?:[a-z]|ab|bc|ca|\d+)$/u;

const NAMES: readonly Name[] = CATALOGUE.flatMap((entry) =>
  [entry.id, entry.label, SPANISH_LABELS[entry.id] ?? entry.label, ...(entry.synonyms ?? [])].map((text) =>
    nameOf(entry, text),
  ),
);
const EXACT = new Map<string, Entry>();
for (const name of NAMES) if (!EXACT.has(name.joined)) EXACT.set(name.joined, name.entry);

/**
 * Recognises a label or header: by id, label or synonym, whatever its case, accents and marks, with
 * a unit in brackets or after a comma, and with small misspellings where only one entry is meant.
 *
 * @param text - Label as it stands in a cell
 * @returns The match, or `undefined` where no entry or more than one is meant
 */
export function matchLabel(text: string): LabelMatch | undefined {
  if (SEEN.has(text)) return SEEN.get(text);
  if (SEEN.size >= MOST_SEEN) SEEN.clear();
  const found = recognise(text);
  SEEN.set(text, found);
  return found;
}

/** The labels of a sheet come again with every formula that reads them, and always mean the same. */
const SEEN = new Map<string, LabelMatch | undefined>();
const MOST_SEEN = 5_000;

function recognise(text: string): LabelMatch | undefined {
  const whole = match(text);
  if (whole?.confidence === 1) return whole;
  const split = /^(.*?)\s*(?:[([{]\s*([^)\]}]+?)\s*[)\]}]|,\s*([^\s,]+)|\s([^\s]+))\s*[:.]?\s*$/su.exec(text);
  const unit = split?.[2] ?? split?.[3] ?? split?.[4];
  if (split && unit) {
    const head = match(split[1]!);
    if (head) {
      const fits = head.entry.kind === "quantity" && isUnitWordFor(unit, head.entry.unit);
      if (fits) return { ...head, unit };
      // Brackets may hold anything else ("Idle voltage (lights on)"): the name before them counts.
      if (split[2] !== undefined && head.confidence > (whole?.confidence ?? 0)) return head;
    }
  }
  return whole;
}

function match(text: string): LabelMatch | undefined {
  const words = wordsOf(text);
  const joined = words.join("");
  if (joined === "") return undefined;
  const exact = EXACT.get(joined);
  if (exact) return { entry: exact, confidence: 1 };
  return nearest(words, joined);
}

function nearest(words: readonly string[], joined: string): LabelMatch | undefined {
  // Short names are too close to each other to be guessed.
  if (joined.length < 6) return undefined;
  const allowed = joined.length >= 12 ? 3 : joined.length >= 8 ? 2 : 1;
  const telltales = telltalesOf(words);
  let best: Name | undefined;
  let bestDistance = allowed + 1;
  let tied = false;
  for (const name of NAMES) {
    if (Math.abs(name.joined.length - joined.length) > allowed) continue;
    if (name.telltales !== telltales) continue;
    const d = distance(name.joined, joined);
    if (d < bestDistance) [best, bestDistance, tied] = [name, d, false];
    else if (d === bestDistance && best && name.entry !== best.entry) tied = true;
  }
  if (!best || tied) return undefined;
  return { entry: best.entry, confidence: 1 - bestDistance / joined.length };
}

function nameOf(entry: Entry, text: string): Name {
  const words = wordsOf(text);
  return { entry, telltales: telltalesOf(words), joined: words.join("") };
}

function telltalesOf(words: readonly string[]): string {
  return words.filter((word) => TELLTALE.test(word)).join(" ");
}

/** Words without case, accents and marks; the pair A–B reads as `ab` however it is written. */
function wordsOf(text: string): string[] {
  return text
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/\b([abc])\s*(?:[-–—/]|to)\s*([abc])\b/gu, "$1$2")
    .split(/[^\p{L}\p{N}+]+/u)
    .filter(Boolean);
}
