import type { Language } from "../pane/settings";
import type { PageWords } from "./words";

/** Names the parts of the page and the buttons below it. */
export function labelPage(page: Document, words: PageWords, language: Language): void {
  const find = (selector: string) => page.querySelector<HTMLElement>(selector)!;
  const name = (selector: string, label: string) => find(selector).setAttribute("aria-label", label);
  page.documentElement.lang = language;
  name("#sheet", words.sheet);
  name("#divider", words.divider);
  name("#pane", words.pane);
  name("#file", words.file.label);
  name("#views", words.views.label);
  for (const file of ["open", "save", "anew"] as const) find(`[data-file="${file}"]`).textContent = words.file[file];
  for (const view of ["sheet", "both", "pane"] as const)
    find(`#views [data-view="${view}"]`).textContent = words.views[view];
}
