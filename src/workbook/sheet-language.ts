import type { ColourRule } from "./port";
import type {
  ListTemplate,
  PageTemplate,
  QuoteTemplate,
  TableTemplate,
  Template,
  TermsTemplate,
} from "./template-schema";

/** The language of a sheet. */
export interface SheetLanguage {
  readonly code: "en" | "es";
  /** Says a text of a template or of the catalogue; what the language does not know comes back as it is. */
  readonly say: (english: string) => string;
  /** The word that is typed for a choice of the catalogue, by the catalogue's own. */
  readonly choice: (word: string) => string;
}

const AS_IT_IS = (text: string) => text;
export const ENGLISH: SheetLanguage = { code: "en", say: AS_IT_IS, choice: AS_IT_IS };

/** A template with its own words said in a language; what comes from the catalogue is said where it is drawn. */
export function inLanguage<T extends Template>(template: T, language: SheetLanguage): T;
export function inLanguage(template: Template, { say }: SheetLanguage): Template {
  switch (template.kind) {
    case "page":
      return page(template, say);
    case "list":
      return list(template, say);
    case "quote":
      return quote(template, say);
    case "terms":
      return terms(template, say);
    case "table":
      return table(template, say);
  }
}

type Say = SheetLanguage["say"];

function head<T extends Template>(template: T, say: Say) {
  return { ...template, sheet: say(template.sheet), title: say(template.title), note: template.note.map(say) };
}

function page(template: PageTemplate, say: Say): PageTemplate {
  const { verdict, curve, proof } = template;
  return {
    ...head(template, say),
    facts: template.facts.map((facts) => ({ ...facts, title: say(facts.title) })),
    verdict: { ...allSaid(verdict, say), knownGood: verdict.knownGood },
    curve: {
      ...allSaid(curve, say),
      load: curve.load,
      points: curve.points.map((point) => ({ ...point, name: say(point.name) })),
    },
    columns: allSaid(template.columns, say),
    caution: say(template.caution),
    proof: { ...allSaid(proof, say), entries: proof.entries, must: proof.must },
    signature: template.signature.map(say),
  };
}

function list(template: ListTemplate, say: Say): ListTemplate {
  const { results } = template;
  return {
    ...head(template, say),
    ...(results ? { results: { ...results, workings: say(results.workings) } } : {}),
  };
}

function quote(template: QuoteTemplate, say: Say): QuoteTemplate {
  const { facts } = template;
  return {
    ...head(template, say),
    facts: {
      title: say(facts.title),
      rows: facts.rows.map((row) => ({
        ...cell(row, say),
        ...(row.format === undefined ? {} : { format: say(row.format) }),
      })),
    },
    shown: allSaid(template.shown, say),
    columns: template.columns.map(say),
    workings: say(template.workings),
    signature: template.signature.map(say),
  };
}

function terms(template: TermsTemplate, say: Say): TermsTemplate {
  return {
    ...head(template, say),
    columns: allSaid(template.columns, say),
    terms: template.terms.map((term) => ({
      ...cell(term, say),
      about: say(term.about),
      ...(typeof term.value === "string" ? { value: say(term.value) } : {}),
    })),
  };
}

function table(template: TableTemplate, say: Say): TableTemplate {
  return { ...head(template, say), columns: template.columns.map((column) => cell(column, say)) };
}

/** What labels a cell of the shop's own, and what may stand in it. */
function cell<T extends { label: string; hint?: string | undefined; choices?: string[] | undefined }>(
  of: T,
  say: Say,
): T {
  return {
    ...of,
    label: say(of.label),
    ...(of.hint === undefined ? {} : { hint: say(of.hint) }),
    ...(of.choices === undefined ? {} : { choices: of.choices.map(say) }),
  };
}

/** Every text of a block; lists and numbers stay. */
function allSaid<T extends object>(block: T, say: Say): T {
  return Object.fromEntries(
    Object.entries(block).map(([key, value]) => [key, typeof value === "string" ? say(value) : value]),
  ) as T;
}

/**
 * Arguments of a call that end with the language of the sheet, the one at `place`; none is needed for English.
 *
 * @param asked - What stands there, where that is more than the language
 */
export function askedIn(
  { code }: SheetLanguage,
  place: number,
  given: readonly string[],
  asked: string = code,
): readonly string[] {
  if (code === "en") return given;
  const leftOut = Array.from({ length: place - given.length }, () => '""');
  return [...given, ...leftOut, `"${asked}"`];
}

/** Colours for the words of a sheet in its language. */
export function saidColours(words: ColourRule["words"], { say }: SheetLanguage): ColourRule["words"] {
  return words.map((word) => ({ ...word, equals: say(word.equals) }));
}

/** Characters that a column needs for any of some words in bold. */
export function widthForWords(words: readonly string[], { say }: SheetLanguage): number {
  return Math.max(0, ...words.map((word) => say(word).length)) + 1.5;
}

/**
 * The word that a function answered in `cell`, in the language of the sheet, as part of a formula; anything
 * but `words` as it is.
 */
export function saidCell(cell: string, words: readonly string[], { say }: SheetLanguage): string {
  return words
    .filter((word) => say(word) !== word)
    .reduceRight((rest, word) => `IF(${cell}="${word}","${say(word)}",${rest})`, cell);
}
