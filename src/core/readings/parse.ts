import { isBlank, isCellError, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { SPANISH_CHOICES } from "./spanish-labels";
import type { ChoiceEntry, Entry, Measured, QuantityEntry } from "./types";
import { toUnit, type Unit } from "./units";

/** What a quantity must be, for one reading or one argument of a function. */
export interface QuantitySpec {
  /** Name used in messages. */
  readonly what: string;
  readonly unit: Unit;
  readonly min: number;
  readonly max: number;
  /** Accept an over-range display (`OL`) and one-sided values (`>50M`). */
  readonly overload?: boolean;
}

/** True for text that says in so many words that nothing is known. */
export function saysNothing(cell: Cell): boolean {
  return typeof cell === "string" && NOT_READ.test(cell.trim());
}

/** `null` stands for a blank cell: not read, never zero. */
export type Parsed<T> = Result<T | null>;

/** What people write into a cell that they did not fill: as good as blank, and no value. */
const NOT_READ =
  /^(?:[-–—]+|n\/?[ad]|n\.\s?[ad]\.?|s\/d|tbd|null|nan|unknown|no\sdata|(?:not|no)\s(?:read|measured|taken|tested|done|known|leíd[oa]|medid[oa])|sin\s(?:leer|medir|datos?))$/iu;
const OVERLOAD =
  /^(?:o\.?\s?l\.?|0\.?l\.?|over[\s-]?(?:load|range|limit)?|open(?:\s?circuit)?|∞|inf(?:\.|inite|inity)?|abierto|ouvert|offen)(?=$|[\s,;(#Ωa-z])/iu;
const APPROXIMATE = /^(?:~|≈|ca\.?|approx\.?|about|circa|aprox\.?|env\.?|etwa)\s*/iu;
const NUMBER = /^([+-]?)((?:\d{1,3}(?:[ \u00a0\u202f'’]\d{3})+|\d+)?(?:[.,]\d+)*[.,]?)(?:e([+-]?\d{1,3}))?/iu;
const NOTE_START = /^[(;#@[]|^,\s|^[-–—]\s+\p{L}/u;
/** What follows a number and makes it two numbers. */
const SECOND_NUMBER = /^(?:[-–—/…~]|\.\.|to\b|or\b|and\b|bis\b|à\b|a\b(?=\s*\d)|o\b(?=\s*\d)|[+±])?\s*[.,]?\d/iu;

/**
 * Reads one cell as a quantity the way people type it: `12.6`, `12,6 V`, `.35`, `70 °F`, `OL`,
 * `>50M`, `14.4V DC (hot)`.
 *
 * @param cell - Cell as the host hands it over
 * @param spec - Unit, plausible range, whether over-range means something
 * @returns `null` for blank and for what says "not read", as `n/a` and a dash do; the reading in `spec.unit`; `not-understood`, `ambiguous` or
 *   `outside-range` with the sentence to show
 */
export function parseQuantity(cell: Cell, spec: QuantitySpec): Parsed<Measured> {
  if (isBlank(cell)) return ok(null);
  if (isCellError(cell)) return notUnderstood(spec, cell.error);
  if (typeof cell === "number") {
    const value = cell / pointsOf(cell, spec);
    return withinRange(value, spec, { kind: "number", value });
  }
  if (typeof cell !== "string") return notUnderstood(spec, String(cell).toUpperCase());
  return parseQuantityText(cell, spec);
}

function parseQuantityText(typed: string, spec: QuantitySpec): Parsed<Measured> {
  let text = typed
    .trim()
    .replace(/^'/u, "")
    .replaceAll(/[−‒]/gu, "-")
    .replaceAll(/[\u00a0\u202f]/gu, " ");
  if (NOT_READ.test(text)) return ok(null);
  const over = OVERLOAD.exec(text);
  if (over) {
    if (!spec.overload) return notUnderstood(spec, typed);
    const note = noteOf(text.slice(over[0].length).replace(/^\s*(?:[kMG]?(?:Ω|ohms?)|V(?:DC|AC)?|V)/u, ""));
    return ok({ kind: "overload", ...(note ? { note } : {}) });
  }
  const side = /^(>=|≥|>|<=|≤|<)\s*/u.exec(text);
  if (side) text = text.slice(side[0].length);
  const approximate = APPROXIMATE.exec(text);
  if (approximate) text = text.slice(approximate[0].length);

  const match = NUMBER.exec(text);
  const digits = match?.[2] ?? "";
  if (!match || !/\d/u.test(digits)) return notUnderstood(spec, typed);
  const rest = text.slice(match[0].length);
  if (SECOND_NUMBER.test(rest.trimStart())) return notUnderstood(spec, typed, "one value only");

  const { unit: word, note: written } = splitUnit(rest, spec);
  if (word === null) return notUnderstood(spec, typed);
  const candidates = readings(match[1] ?? "", digits, match[3]);
  if (candidates.length === 0) return notUnderstood(spec, typed);

  const converted: { value: number; step: number }[] = [];
  for (const candidate of candidates) {
    const value = toUnit(candidate.value, word, spec.unit, spec.what);
    // A mistyped number is shown as it was typed.
    if (!value.ok) return value.fault.code === "not-understood" ? notUnderstood(spec, typed) : value;
    const next = toUnit(candidate.value + candidate.step, word, spec.unit, spec.what);
    converted.push({ value: value.value, step: next.ok ? Math.abs(next.value - value.value) : candidate.step });
  }
  const possible = converted.filter(({ value }) => value >= spec.min && value <= spec.max);
  // A point marks decimals wherever they are possible: 5.000 rpm can but be thousands, 12.600 V are none.
  if (converted.length > 1 && possible.length !== 1 && !digits.includes(".")) {
    return fail({
      code: "ambiguous",
      what: spec.what,
      came: typed.trim(),
      question: "write the thousands without a comma, or the decimals with a point",
    });
  }
  const found = possible[0] ?? converted[0]!;
  const points = pointsOf(found.value, spec);
  const chosen = { value: found.value / points, step: found.step / points };
  const note = [approximate ? "approximate" : "", written].filter(Boolean).join("; ");
  const resolution = Number(chosen.step.toPrecision(6));
  if (side && !spec.overload) return notUnderstood(spec, typed, "the value itself");
  return withinRange(
    chosen.value,
    spec,
    side
      ? {
          kind: side[1]!.startsWith(">") || side[1] === "≥" ? "above" : "below",
          value: chosen.value,
          ...(note ? { note } : {}),
        }
      : { kind: "number", value: chosen.value, resolution, ...(note ? { note } : {}) },
  );
}

/** Hydrometers are read aloud in points, and many are marked so: 1265 is 1.265. */
function pointsOf(value: number, { unit, min, max }: QuantitySpec): number {
  return unit === "SG" && value > max && value >= 1000 * min && value <= 1000 * max ? 1000 : 1;
}

/** Splits what follows the number into a unit and a note; `unit: null` where it is neither. */
function splitUnit(rest: string, spec: QuantitySpec): { unit: string | null; note: string } {
  const attached = rest !== "" && !/^\s/u.test(rest);
  const text = rest.trim();
  if (text === "") return { unit: "", note: "" };
  if (NOTE_START.test(text)) return { unit: "", note: noteOf(text) };
  // Longest run of words that is a unit wins: "deg F", "V DC", "V true rms".
  const words = text.split(/\s+/u);
  for (let count = Math.min(4, words.length); count > 0; count--) {
    const joined = words.slice(0, count).join(" ");
    const bare = joined.replace(/[,;:.]$/u, "");
    if (toUnit(1, bare, spec.unit, spec.what).ok) return { unit: bare, note: noteOf(words.slice(count).join(" ")) };
  }
  const head = /^(?:[^\s(;,#@[]+)/u.exec(text)?.[0] ?? "";
  const tail = text.slice(head.length);
  if (head !== "" && head !== words[0] && toUnit(1, head, spec.unit, spec.what).ok)
    return { unit: head, note: noteOf(tail) };
  const first = words[0]!;
  // A unit of another kind, or the milli-or-mega question, is answered by the conversion itself.
  if (attached || first.length <= 2 || isForeignUnit(first, spec)) return { unit: first, note: "" };
  return { unit: "", note: noteOf(text) };
}

const ALL_UNITS: readonly Unit[] = ["V", "A", "Ω", "s", "Ah", "W", "rpm", "Hz", "SG", "1", "m", "mm²", "°C"];

function isForeignUnit(word: string, spec: QuantitySpec): boolean {
  return (
    /^m\s?ohms?$/iu.test(word) || ALL_UNITS.some((unit) => unit !== spec.unit && toUnit(1, word, unit, spec.what).ok)
  );
}

function noteOf(text: string): string {
  return text
    .trim()
    .replace(/^[(;,#@[\-–—\s]+/u, "")
    .replace(/[)\]]$/u, "")
    .trim();
}

/** Every number that the digits can mean, with the size of the last digit. */
function readings(sign: string, digits: string, exponent: string | undefined): { value: number; step: number }[] {
  const grouped = digits.replaceAll(/(\d)[ '’](?=\d{3})/gu, "$1");
  const marks = [...grouped.matchAll(/[.,]/gu)].map((m) => m[0]);
  const texts = new Set<string>();
  if (marks.length <= 1) {
    texts.add(grouped.replace(",", "."));
    if (/^[1-9]\d{0,2}[.,]\d{3}$/u.test(grouped)) texts.add(grouped.replace(/[.,]/u, ""));
  } else {
    const decimal = marks.at(-1)!;
    const thousands = marks[0]!;
    const shape = new RegExp(`^\\d{1,3}(?:[${thousands}]\\d{3})+(?:[${decimal}]\\d*)?$`, "u");
    if (thousands === decimal) {
      if (new RegExp(`^\\d{1,3}(?:[${thousands}]\\d{3})+$`, "u").test(grouped))
        texts.add(grouped.replaceAll(thousands, ""));
    } else if (marks.filter((m) => m === decimal).length === 1 && shape.test(grouped)) {
      texts.add(grouped.replaceAll(thousands, "").replace(decimal, "."));
    }
  }
  return [...texts].map((text) => {
    const decimals = /\.(\d+)/u.exec(text)?.[1]?.length ?? 0;
    const power = exponent ? Number(exponent) : 0;
    return { value: Number(`${sign}${text}e${power}`), step: Number(`1e${power - decimals}`) };
  });
}

function withinRange(value: number, spec: QuantitySpec, measured: Measured): Parsed<Measured> {
  if (!Number.isFinite(value)) return notUnderstood(spec, String(value));
  if (!(value >= spec.min && value <= spec.max)) {
    return fail({
      code: "outside-range",
      what: spec.what,
      came: value,
      min: spec.min,
      max: spec.max,
      unit: spec.unit === "1" || spec.unit === "SG" ? "" : spec.unit,
    });
  }
  return ok(measured);
}

function notUnderstood(spec: QuantitySpec, came: string, instead?: string): Parsed<never> {
  const unit =
    spec.unit === "1"
      ? spec.max > 1
        ? "a number"
        : "a share such as 0.5 or 50 %"
      : `a number in ${spec.unit === "SG" ? "specific gravity, such as 1.265" : spec.unit}`;
  return fail({
    code: "not-understood",
    what: spec.what,
    came,
    expected: instead ?? `${unit}${spec.overload ? ", or OL for over-range" : ""}`,
  });
}

/** Reads one cell as one of the words of a choice; case, spaces and synonyms do not matter. */
export function parseChoice(cell: Cell, what: string, choices: ChoiceEntry["choices"]): Parsed<string> {
  if (isBlank(cell)) return ok(null);
  const typed = isCellError(cell) ? cell.error : String(cell);
  // Tables hold the words as they stand in the list, row after row.
  if (choices.some((choice) => choice.value === typed)) return ok(typed);
  const wanted = plainWord(typed);
  const found = choices.find((choice) =>
    [choice.value, choice.label, SPANISH_CHOICES[choice.value] ?? choice.value, ...(choice.synonyms ?? [])].some(
      (name) => plainWord(name) === wanted,
    ),
  );
  if (found) return ok(found.value);
  if (saysNothing(cell)) return ok(null);
  return fail({
    code: "not-understood",
    what,
    came: typed,
    expected: `one of: ${choices.map((c) => c.value).join(", ")}`,
  });
}

/** A word without case, accents, spaces and signs: as it is compared with what people type. */
export function plainWord(text: string): string {
  return text
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}+]+/gu, "");
}

/** Reads a cell as the catalogue's entry asks for it. */
export function parseEntry(cell: Cell, entry: Entry): Parsed<Measured> {
  if (isBlank(cell)) return ok(null);
  switch (entry.kind) {
    case "quantity":
      // A spreadsheet makes 0.15 of 15 % that is typed; no percentage of the catalogue is less than one.
      return parseQuantity(
        typeof cell === "number" && entry.unit === "%" && cell < 1 ? cell * 100 : cell,
        quantitySpec(entry),
      );
    case "choice": {
      const word = parseChoice(cell, entry.label, entry.choices);
      return word.ok ? ok(word.value === null ? null : { kind: "choice", value: word.value }) : word;
    }
    case "text":
      return isCellError(cell)
        ? fail({ code: "not-understood", what: entry.label, came: cell.error, expected: "text" })
        : ok(saysNothing(cell) ? null : { kind: "text", value: String(cell).trim() });
  }
}

export function quantitySpec(entry: QuantityEntry): QuantitySpec {
  return {
    what: entry.label,
    unit: entry.unit,
    min: entry.min,
    max: entry.max,
    ...(entry.overload ? { overload: true } : {}),
  };
}
