import { pageLayout, COLUMN, rowOfFact } from "./page-layout";
import { verdictPlaces } from "./page-verdict";
import { drawQuote, quoteLayout, type QuoteSources } from "./quote-plan";
import { inLanguage, type SheetLanguage } from "./sheet-language";
import { rowBelowHead } from "./sheet-head";
import type { SheetDraft } from "./sheet-draft";
import type { SheetPlan } from "./planned-sheet";
import { drawTable, tableRange } from "./table-plan";
import type { Demo, QuoteTemplate, TableTemplate, Template, TermsTemplate } from "./template-schema";
import { drawTerms, termsRange } from "./terms-plan";

/** Columns of the record of quotes that hold what was found, in our words. */
const OF_A_VERDICT: ReadonlySet<string> = new Set(["part", "verdict", "way"]);

/** Lays out a table of the shop's own. */
export function planTable(template: TableTemplate, sheet: string, { say }: SheetLanguage, demo?: Demo): SheetPlan {
  const chosen = new Set(template.columns.flatMap(({ id, choices }) => (choices || OF_A_VERDICT.has(id) ? [id] : [])));
  // The words of a list and of a verdict are the sheet's; what the shop typed besides is its own.
  const typed = (id: string, value: string | number) =>
    typeof value === "string" && chosen.has(id) ? say(value) : value;
  const rows = (demo?.tables?.[template.id] ?? []).map((row) =>
    Object.fromEntries(Object.entries(row).map(([id, value]) => [id, typed(id, value)])),
  );
  const draft = drawTable(template, sheet, rows);
  const head = rowBelowHead(template);
  return {
    ...planned(template, draft),
    inputs: new Map(template.columns.map(({ id }, column) => [id, { row: head + 1, column }])),
    labelOf: (row, column) => {
      const text = row > head ? template.columns[column]?.label : undefined;
      return text === undefined ? undefined : { row: head, column, text };
    },
  };
}

/**
 * Lays out the shop's terms.
 *
 * @param english - The template; its cells to type into go by these labels, whatever the sheet calls them
 */
export function planTerms(english: TermsTemplate, sheet: string, language: SheetLanguage, demo?: Demo): SheetPlan {
  const template = inLanguage(english, language);
  const draft = drawTerms(template, sheet, typedByLabel(english, language, demo));
  const [ids, labels] = [english, template].map(({ terms }) => terms.map(({ label }) => label));
  return planned(template, draft, labels, rowBelowHead(template) + 1, ids);
}

/** What the invented shop typed beside labels, by the labels of the sheet's language. */
function typedByLabel(
  { id }: Template,
  { say }: SheetLanguage,
  demo?: Demo,
): Readonly<Record<string, string | number>> {
  return Object.fromEntries(
    Object.entries(demo?.labels?.[id] ?? {}).map(([label, value]) => [
      say(label),
      typeof value === "string" ? say(value) : value,
    ]),
  );
}

/**
 * Lays out a quote beside the sheets it is worked out from.
 *
 * @param english - The template; its cells to type into go by these labels, whatever the sheet calls them
 */
export function planQuote(
  english: QuoteTemplate,
  sheet: string,
  templates: readonly Template[],
  nameOf: (template: Template) => string,
  language: SheetLanguage,
  sources: QuoteSources | undefined,
  demo?: Demo,
): SheetPlan {
  const template = inLanguage(english, language);
  const from = sources ?? sourcesAmong(template, templates, nameOf);
  const draft = drawQuote(template, sheet, from, typedByLabel(english, language, demo), language);
  const ids = english.facts.rows.map(({ label }) => label);
  const labels = template.facts.rows.map(({ label }) => label);
  return planned(template, draft, labels, quoteLayout(template).facts, ids);
}

function planned(
  template: Template,
  draft: SheetDraft,
  labels: readonly string[] = [],
  first = 0,
  ids: readonly string[] = labels,
): SheetPlan {
  return {
    template: template.id,
    sheet: draft.sheet,
    area: draft.whole(),
    steps: draft.steps(),
    inputs: new Map(ids.map((id, i) => [id, { row: first + i, column: 1 }])),
    labelOf: (row, column) => {
      const text = column === 1 ? labels[row - first] : undefined;
      return text === undefined ? undefined : { row, column: 0, text };
    },
  };
}

function sourcesAmong(
  template: QuoteTemplate,
  templates: readonly Template[],
  nameOf: (template: Template) => string,
): QuoteSources {
  const named = (id: string) => templates.find((other) => other.id === id);
  const [job, prices, terms] = [named(template.job), named(template.prices), named(template.terms)];
  if (job?.kind !== "page" || prices?.kind !== "table" || terms?.kind !== "terms") {
    throw new Error(`${template.id}: its job, prices and terms must be laid out with it, or be given.`);
  }
  const layout = pageLayout(job);
  const facts = template.facts.rows.flatMap(({ from }) => {
    const row = from === undefined ? undefined : rowOfFact(layout, from);
    return from === undefined || row === undefined ? [] : [[from, { row, column: COLUMN.value }] as const];
  });
  return {
    jobSheet: nameOf(job),
    ...verdictPlaces(layout),
    facts: new Map(facts),
    prices: tableRange(prices, nameOf(prices)),
    terms: termsRange(terms, nameOf(terms)),
  };
}
