import { ENGLISH, type SheetLanguage } from "../workbook/sheet-language";
import type { Words } from "./words/english";

/** What is written on sheets is in the language of the pane; what they say beyond the pane is fetched then. */
export async function languageOf(words: Words): Promise<SheetLanguage> {
  if (words.language.code !== "es") return ENGLISH;
  const { spanishSheets } = await import(/* webpackChunkName: "sheets-spanish" */ "./words/sheets-spanish");
  return spanishSheets(words);
}
