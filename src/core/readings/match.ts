import { distance } from "fastest-levenshtein";
import { CATALOGUE } from "./catalogue";
import { speedIn, speedOf } from "./label-speed";
import { telltalesOf, wordSet, wordsOf } from "./label-words";
import { SPANISH_LABELS } from "./spanish-labels";
import type { Entry } from "./types";
import { isUnitWordFor } from "./units";

/** A label of somebody's sheet, recognised. */
export interface LabelMatch {
  readonly entry: Entry;
  /** Unit written with the label, `Draw (mA)`; bare numbers under it are in this unit. */
  readonly unit?: string;
  /** Speed written with the label, `Voltage @ 5000 rpm`, at which its reading was taken. */
  readonly rpm?: number;
  /** 1 for the id, the label or a synonym as it stands; less for other words and for a misspelling. */
  readonly confidence: number;
}

interface Name {
  readonly entry: Entry;
  readonly text: string;
  /** Letters and numbers that tell the name from its neighbours, in order. */
  readonly telltales: string;
  readonly words: readonly string[];
  readonly joined: string;
  readonly set: string;
}

const NAMES: readonly Name[] = CATALOGUE.flatMap((entry) =>
  [entry.id, entry.label, SPANISH_LABELS[entry.id] ?? entry.label, ...(entry.synonyms ?? [])].map((text) =>
    nameOf(entry, text),
  ),
);
const EXACT = new Map<string, Entry>();
for (const name of NAMES) if (!EXACT.has(name.joined)) EXACT.set(name.joined, name.entry);
/** Entries by the words of their names; `undefined` for words that two of them share. */
const BY_WORDS = new Map<string, Entry | undefined>();
for (const { set, entry, text } of NAMES) {
  // One word alone, or an id, is a name only as it stands.
  if (!set.includes(" ") || text === entry.id) continue;
  BY_WORDS.set(set, BY_WORDS.has(set) && BY_WORDS.get(set) !== entry ? undefined : entry);
}
const VOCABULARY: ReadonlySet<string> = new Set(NAMES.flatMap(({ words }) => words));
/** In other words than the catalogue's: the meaning is sure, the name is not. */
const OTHER_WORDS = 0.9;

/**
 * Recognises a label or header: by id, label or synonym, whatever its case, accents and marks, with
 * a unit in brackets or after a comma, with the speed of its reading, with its words in another order or
 * shortened as workshops do, and with small misspellings where only one entry is meant.
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
  const own = withUnit(text);
  const speed = speedIn(text);
  if (!speed) return own;
  const { rpm, rest } = speed;
  // The speed is part of some names, and beside others.
  for (const found of [own, match(text), withUnit(rest)]) {
    if (!found || !speedOf(found.entry, rpm)) continue;
    return { ...found, confidence: Math.min(found.confidence, OTHER_WORDS), rpm };
  }
  return own;
}

function withUnit(text: string): LabelMatch | undefined {
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
  const meant = BY_WORDS.get(wordSet(text));
  return meant ? { entry: meant, confidence: OTHER_WORDS } : nearest(words, joined);
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
    if (name.telltales !== telltales || !couldBe(words, name.words)) continue;
    const d = distance(name.joined, joined);
    if (d < bestDistance) [best, bestDistance, tied] = [name, d, false];
    else if (d === bestDistance && best && name.entry !== best.entry) tied = true;
  }
  if (!best || tied) return undefined;
  return { entry: best.entry, confidence: 1 - bestDistance / joined.length };
}

/** Word by word: no word that the catalogue knows stands for another, and none for one that merely looks like it. */
function couldBe(words: readonly string[], meant: readonly string[]): boolean {
  if (words.length !== meant.length) return true;
  return words.every((word, i) => word === meant[i] || (!VOCABULARY.has(word) && isSlipOf(word, meant[i]!)));
}

/** A letter wrong, missing or too many, two in long words, or two that changed places; the first one stands. */
function isSlipOf(word: string, meant: string): boolean {
  if (word[0] !== meant[0]) return false;
  const slips = distance(word, meant);
  const swapped = slips === 2 && [...word].sort().join("") === [...meant].sort().join("");
  return swapped || slips <= (meant.length >= 9 ? 2 : meant.length >= 4 ? 1 : 0);
}

function nameOf(entry: Entry, text: string): Name {
  const words = wordsOf(text);
  return { entry, text, telltales: telltalesOf(words), words, joined: words.join(""), set: wordSet(text) };
}
