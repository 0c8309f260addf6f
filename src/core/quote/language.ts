import { andThen, ok, type Result } from "../result";
import { languageNamed, type Say } from "../words/language";
import { Phrasebook } from "../words/phrasebook";
import { CHECK_LABEL_PHRASES } from "../words/spanish/check-labels";
import { FAULT_PHRASES } from "../words/spanish/faults";
import { SPANISH_GRAMMAR } from "../words/spanish/grammar";
import { QUOTE_PHRASES } from "../words/spanish/quote";

export const inEnglish: Say = (text) => text;

let spanish: Phrasebook | undefined;

/** Made once, and only where somebody asks for it. */
const inSpanish: Say = (text) => {
  spanish ??= new Phrasebook([...FAULT_PHRASES, ...CHECK_LABEL_PHRASES, ...QUOTE_PHRASES], SPANISH_GRAMMAR);
  return spanish.said(text) ?? text;
};

/** @param code - `en`, `es`, or blank for English */
export function languageOfQuote(code: string): Result<Say> {
  return andThen(languageNamed(code), (language) => ok(language === "es" ? inSpanish : inEnglish));
}
