import fleet from "../../templates/fleet.json";
import job from "../../templates/job.json";
import machines from "../../templates/machines.json";
import prices from "../../templates/prices.json";
import quote from "../../templates/quote.json";
import quotes from "../../templates/quotes.json";
import reference from "../../templates/reference.json";
import terms from "../../templates/terms.json";
import type { Template } from "./template-schema";

/**
 * Every template, in the order in which a workbook holds them. Tests hold the files against the schema,
 * so that it need not be fetched with them.
 */
export const TEMPLATES = [
  job,
  machines,
  reference,
  fleet,
  prices,
  terms,
  quote,
  quotes,
] as readonly unknown[] as readonly Template[];

export function templateOf(id: string): Template | undefined {
  return TEMPLATES.find((template) => template.id === id);
}

/** A template and the lists that its formulas look things up in, in the order of a workbook. */
export function withCompanions(template: Template): readonly Template[] {
  const wanted = new Set([template.id, ...neededBy(template)]);
  return TEMPLATES.filter(({ id }) => wanted.has(id));
}

/** Ids of the sheets that a template's formulas refer to, and what those refer to in turn. */
function neededBy(template: Template): readonly string[] {
  const directly = refersTo(template);
  return [...directly, ...directly.flatMap((id) => TEMPLATES.filter((other) => other.id === id).flatMap(neededBy))];
}

function refersTo(template: Template): readonly string[] {
  switch (template.kind) {
    case "page":
      return [...template.facts.flatMap(({ lookUp }) => (lookUp ? [lookUp.list] : [])), template.verdict.knownGood];
    case "list":
      return template.results ? [template.results.machines] : [];
    case "quote":
      return [template.job, template.prices, template.terms];
    default:
      return [];
  }
}
