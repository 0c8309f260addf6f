import type { Language } from "../settings";
import type { Words } from "./english";

const FETCH: Readonly<Record<Language, () => Promise<Words>>> = {
  en: async () => (await import(/* webpackChunkName: "english" */ "./english")).ENGLISH,
  es: async () => (await import(/* webpackChunkName: "spanish" */ "./spanish")).SPANISH,
};

/**
 * Fetches the words of one language: whoever works in the other never needs them. Where they cannot be fetched,
 * those of the other are better than none; it fails where neither can.
 */
export function fetchPaneWords(language: Language): Promise<Words> {
  return FETCH[language]().catch(FETCH[language === "es" ? "en" : "es"]);
}
