import { sentenceCase } from "../sentence-case";

/**
 * A sentence of the computing side and what it is in another language. `{}` stands for whatever the
 * sentence is filled with and is looked up in turn; `{v}` for a number or a range with its unit; `{t}` for
 * a terminal or a pair of them; `{raw}` for words of somebody else that stay as they are. The other
 * language takes them in the same order.
 */
export type Phrase = readonly [english: string, other: string];

/** How a language writes what stands between the words. */
export interface Grammar {
  /** What stands among numbers and in them that the language writes otherwise: `V AC`, the decimal point. */
  readonly units: readonly (readonly [english: string | RegExp, other: string])[];
  readonly range: (low: string, high: string) => string;
  readonly and: string;
}

interface Pattern {
  /** What stands between the holes: a text without all of it is passed over sooner than a shape is tried. */
  readonly given: readonly string[];
  readonly tries: readonly RegExp[];
  readonly kinds: readonly string[];
  readonly other: string;
  /** Letters that are given; the more of them, the surer the match. */
  readonly literal: number;
}

const HOLE = /\{(v|t|raw|)\}/gu;
const VALUE = '(?:(?:over|under|above|below) |[<>≥≤±+−-]\\s?)?(?:\\d|OL\\b|Infinity\\b)[^:()"]*?';
/** Numbers, units and signs, which every language writes alike. */
const NEUTRAL =
  /^(?:[<>≥≤±+−-]?\d[\d.,:–−-]*(?:e[+-]?\d+)?|[<>≥≤±/–−-]|OL|over|under|above|below|Infinity|%|°[CF]|[mk]?V|AC|DC|m?A|[kM]?Ω|W|Ah|rpm|min|s|h|SG|[ABC](?:–[ABC])?|B\+|#)$/u;
/** Sentences that are remembered; numbers change while they are typed. */
const MOST_KNOWN = 4000;

/** Says in another language what the computing side says in English. */
export class Phrasebook {
  private readonly exact = new Map<string, string>();
  private readonly patterns: Pattern[] = [];
  private readonly known = new Map<string, string | undefined>();

  private readonly separators: readonly (readonly [cut: (text: string) => string[], english: string, other: string])[];

  constructor(
    private readonly phrases: readonly Phrase[],
    private readonly grammar: Grammar,
  ) {
    this.separators = [
      [(text) => text.replaceAll(/([.?!]) (?=\S)/gu, "$1\0").split("\0"), " ", " "],
      [(text) => text.split("; "), "; ", "; "],
      [(text) => text.split(", "), ", ", ", "],
      [(text) => text.split(" and "), " and ", ` ${grammar.and} `],
    ];
    for (const [english, other] of phrases) {
      const small = withSmallStart(english);
      const same = small === english ? other : withSmallStart(other);
      if (english.search(HOLE) < 0) this.exact.set(small, same);
      else this.patterns.push(patternOf(small, same));
    }
    this.patterns.sort((a, b) => b.literal - a.literal);
  }

  /** A book that knows further sentences too. */
  with(more: readonly Phrase[]): Phrasebook {
    return new Phrasebook([...more, ...this.phrases], this.grammar);
  }

  /** What `text` is in the other language; `undefined` where the book does not know all of it. */
  said(text: string): string | undefined {
    if (text === "") return "";
    if (this.known.has(text)) return this.known.get(text);
    const small = withSmallStart(text);
    const found = this.exact.get(small) ?? this.value(text) ?? this.fromPattern(small) ?? this.fromList(small);
    const said = found !== undefined && small !== text ? sentenceCase(found) : found;
    if (this.known.size >= MOST_KNOWN) this.known.clear();
    this.known.set(text, said);
    return said;
  }

  /** A number with its unit, several of them, or a range. */
  private value(text: string): string | undefined {
    const [low, high, ...more] = text.split(" to ");
    if (high !== undefined && more.length === 0) {
      const ends = [this.neutral(low!), this.neutral(high)];
      return ends[0] !== undefined && ends[1] !== undefined ? this.grammar.range(ends[0], ends[1]) : undefined;
    }
    return this.neutral(text);
  }

  private neutral(text: string): string | undefined {
    if (!text.split(/[\s,]+/u).every((word) => word === "" || NEUTRAL.test(word))) return undefined;
    return this.grammar.units.reduce((words, [english, other]) => words.replaceAll(english, other), text);
  }

  private fromPattern(text: string): string | undefined {
    for (const { given, tries, kinds, other } of this.patterns) {
      if (!given.every((piece) => text.includes(piece))) continue;
      for (const shape of tries) {
        const match = shape.exec(text);
        if (!match) break;
        const parts = kinds.map((kind, i) => this.part(kind!, match[i + 1]!));
        if (parts.some((part) => part === undefined)) continue;
        let at = 0;
        return other.replace(HOLE, () => parts[at++]!);
      }
    }
    return undefined;
  }

  private part(kind: string, text: string): string | undefined {
    if (kind === "raw" || kind === "t") return text;
    return kind === "v" ? this.value(text) : this.said(text);
  }

  /** A list of known words; a word may hold a comma itself, so the longest is tried first. */
  private fromList(text: string): string | undefined {
    for (const [cut, english, other] of this.separators) {
      const pieces = cut(text);
      if (pieces.length < 2) continue;
      for (let to = pieces.length - 1; to > 0; to--) {
        const first = this.said(pieces.slice(0, to).join(english));
        const rest = first === undefined ? undefined : this.said(pieces.slice(to).join(english));
        if (rest !== undefined) return first + other + rest;
      }
    }
    return undefined;
  }
}

/** A sentence may start with a name or hold it within: the name is one. "B+" and "AC" keep their letters. */
function withSmallStart(text: string): string {
  return /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

function patternOf(english: string, other: string): Pattern {
  const kinds = [...english.matchAll(HOLE)].map(([, kind]) => kind!);
  const pieces = english.split(/\{(?:v|t|raw|)\}/u);
  const hole = (kind: string, any: string) => (kind === "v" ? VALUE : kind === "t" ? "[ABC](?:–[ABC])?" : any);
  const shape = (any: string) =>
    new RegExp(
      `^${pieces.map((piece, i) => escaped(piece) + (i < kinds.length ? `(${hole(kinds[i]!, any)})` : "")).join("")}$`,
      "su",
    );
  return { given: pieces, tries: [shape(".+?"), shape(".+")], kinds, other, literal: pieces.join("").length };
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/gu, String.raw`\$&`);
}
