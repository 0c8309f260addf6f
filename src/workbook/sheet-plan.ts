import { entryById, headerOf } from "./input-cells";
import { listLayout, type ListLayout } from "./list-layout";
import { drawList } from "./list-plan";
import { planQuote, planTable, planTerms } from "./counter-plan";
import { COLUMN, pageLayout } from "./page-layout";
import { drawPage } from "./page-plan";
import type { Step } from "./port";
import type { SheetPlan } from "./planned-sheet";
import { ENGLISH, inLanguage, type SheetLanguage } from "./sheet-language";
import type { QuoteSources } from "./quote-plan";
import type { TermsTemplate, Demo, ListTemplate, PageTemplate, QuoteTemplate, Template } from "./template-schema";

export type { SheetPlan };

export interface PlanOptions {
  /** Names to give the sheets instead of the templates' own, by template id. */
  readonly sheets?: Readonly<Record<string, string>>;
  /** Lists that the workbook already holds under these names; pages look their values up there. */
  readonly existing?: readonly ListTemplate[];
  /** What a quote is worked out from, where its sheets are not among the templates that are laid out. */
  readonly quote?: QuoteSources;
  /** Values to fill in, of an invented shop. */
  readonly demo?: Demo;
  /** What the sheets are written in; English if not given. */
  readonly language?: SheetLanguage;
}

/** Lays templates out, each on a sheet of its own; pages refer to the lists among them. */
export function planSheets(english: readonly Template[], options: PlanOptions = {}): readonly SheetPlan[] {
  const { language = ENGLISH, demo } = options;
  const templates = english.map((template) => inLanguage(template, language));
  const nameOf = (template: Template) => options.sheets?.[template.id] ?? template.sheet;
  const lists = new Map<string, ListLayout>();
  for (const template of [...(options.existing ?? []), ...templates]) {
    if (template.kind === "list") lists.set(template.id, listLayout(template, nameOf(template)));
  }
  return templates.map((template, i) => {
    const sheet = nameOf(template);
    switch (template.kind) {
      case "page":
        return planPage(template, sheet, lists, language, demo);
      case "list":
        return planList(template, lists.get(template.id)!, lists, language, demo);
      case "table":
        return planTable(template, sheet, language, demo);
      case "terms":
        return planTerms(english[i] as TermsTemplate, sheet, language, demo);
      case "quote":
        return planQuote(english[i] as QuoteTemplate, sheet, templates, nameOf, language, options.quote, demo);
    }
  });
}

function planPage(
  template: PageTemplate,
  sheet: string,
  lists: ReadonlyMap<string, ListLayout>,
  language: SheetLanguage,
  demo?: Demo,
): SheetPlan {
  const values = saidValues(demo?.pages[template.id] ?? {}, language);
  const draft = drawPage({ template, sheet, lists, values, language });
  const layout = pageLayout(template);
  const inputs = new Map<string, { row: number; column: number }>();
  for (const rows of [...layout.facts, ...layout.stages.flatMap((stage) => stage.checks)]) {
    rows.entries.forEach((id, i) => inputs.set(id, { row: rows.first + i, column: COLUMN.value }));
  }
  const labelOf = (id: string) => language.say(entryById(id).label);
  const typed = new Map([...inputs].map(([id, { row }]) => [row, labelOf(id)]));
  layout.proof.entries.forEach((id, i) => typed.set(layout.proof.first + i, labelOf(id)));
  return {
    template: template.id,
    sheet,
    area: draft.whole(),
    steps: draft.steps(),
    inputs,
    labelOf: (row, column) => {
      const text = column === COLUMN.value ? typed.get(row) : undefined;
      return text === undefined ? undefined : { row, column: COLUMN.label, text };
    },
  };
}

function planList(
  template: ListTemplate,
  layout: ListLayout,
  lists: ReadonlyMap<string, ListLayout>,
  language: SheetLanguage,
  demo?: Demo,
): SheetPlan {
  const rows = (demo?.lists[template.id] ?? []).map((row) => saidValues(row, language));
  const draft = drawList(template, layout, lists, rows, language);
  const inputs = new Map(template.columns.map((id, column) => [id, { row: layout.firstRow, column }]));
  return {
    template: template.id,
    sheet: layout.sheet,
    area: draft.whole(),
    steps: draft.steps(),
    inputs,
    labelOf: (row, column) => {
      const id = row >= layout.firstRow ? template.columns[column] : undefined;
      return id === undefined ? undefined : { row: layout.headerRow, column, text: headerOf(entryById(id), language) };
    },
  };
}

/** What an invented shop typed, as it would be typed in the language. */
function saidValues(
  values: Readonly<Record<string, string | number>>,
  { say, choice }: SheetLanguage,
): Readonly<Record<string, string | number>> {
  return Object.fromEntries(
    Object.entries(values).map(([id, value]) => {
      if (typeof value !== "string") return [id, value];
      return [id, entryById(id).kind === "choice" ? choice(value) : say(value)];
    }),
  );
}

/** The steps of several plans, each on a sheet that is added first. */
export function stepsForNewSheets(plans: readonly SheetPlan[]): readonly Step[] {
  return [...plans.map(({ sheet }): Step => ({ do: "add sheet", sheet })), ...plans.flatMap(({ steps }) => steps)];
}
