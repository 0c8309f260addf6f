import fleet from "../../templates/fleet.json";
import job from "../../templates/job.json";
import machines from "../../templates/machines.json";
import reference from "../../templates/reference.json";
import { parseTemplate, type Template } from "./template-schema";

/** Every template, in the order in which a workbook holds them. */
export const TEMPLATES: readonly Template[] = [job, machines, reference, fleet].map(parseTemplate);

export function templateOf(id: string): Template | undefined {
  return TEMPLATES.find((template) => template.id === id);
}

/** A template and the lists that its formulas look things up in, in the order of a workbook. */
export function withCompanions(template: Template): readonly Template[] {
  const wanted = new Set([template.id, ...listsOf(template)]);
  return TEMPLATES.filter(({ id }) => wanted.has(id));
}

function listsOf(template: Template): readonly string[] {
  if (template.kind === "list") return template.results ? [template.results.machines] : [];
  const lookedUp = template.facts.flatMap(({ lookUp }) => (lookUp ? [lookUp.list] : []));
  return [...lookedUp, template.verdict.knownGood];
}
