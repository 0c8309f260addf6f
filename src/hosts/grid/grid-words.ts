import { LocaleType, type ILocales } from "@univerjs/core";
import { localeCurrencySymbolMap } from "@univerjs/sheets-numfmt";
import type { LanguageCode } from "../../core/words/language";

/** The grid's own words in one language, under the name that it knows them by. */
export interface GridWords {
  readonly locale: LocaleType;
  readonly locales: ILocales;
}

/**
 * Spanish goes by a name of our own. To the grid each of its own names is a country with a currency: that of
 * money in cells would become another one with the language of whoever looks at them.
 */
const LOCALES: Readonly<Record<LanguageCode, LocaleType>> = { en: LocaleType.EN_US, es: "es" as LocaleType };
localeCurrencySymbolMap.set(LOCALES.es, localeCurrencySymbolMap.get(LOCALES.en)!);

/** Fetches what the grid says in a language, a third of a megabyte with all that it tells of worksheet functions. */
export async function gridWords(language: LanguageCode): Promise<GridWords> {
  const locale = LOCALES[language];
  return { locale, locales: { [locale]: await (language === "es" ? spanish() : english()) } };
}

async function english() {
  return (await import(/* webpackChunkName: "grid-english" */ "./grid-english")).GRID_ENGLISH;
}

async function spanish() {
  const found = import(/* webpackChunkName: "grid-spanish" */ "./grid-spanish");
  // Better in English than not at all.
  return found.then(({ GRID_SPANISH }) => GRID_SPANISH, english);
}
