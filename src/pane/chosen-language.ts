import type { Language } from "./settings";

/** The language that the pane was set to, else the browser's; for whoever speaks before the pane is there. */
export function chosenLanguage(storage: Pick<Storage, "getItem"> | undefined, browser: string): Language {
  let chosen: unknown;
  try {
    chosen = (JSON.parse(storage?.getItem("chargewright.settings") ?? "null") as { language?: unknown } | null)
      ?.language;
  } catch {
    chosen = undefined;
  }
  if (chosen === "en" || chosen === "es") return chosen;
  return browser.toLowerCase().startsWith("es") ? "es" : "en";
}
