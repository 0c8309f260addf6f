import { QUOTE_RECORD_PHRASES } from "../words/spanish/quote-record";
import { QUOTE_SHEET_PHRASES } from "../words/spanish/quote-sheet";
import { SHOP_SHEET_PHRASES } from "../words/spanish/shop-sheets";

export function plain(text: string): string {
  return text.normalize("NFKD").replaceAll(/\p{M}/gu, "").trim().toLowerCase().replaceAll(/\s+/gu, " ");
}

const WORDS = [...QUOTE_SHEET_PHRASES, ...SHOP_SHEET_PHRASES, ...QUOTE_RECORD_PHRASES];
const ENGLISH: ReadonlyMap<string, string> = new Map(WORDS.map(([english, spanish]) => [plain(spanish), english]));

/** The English of a label or word of the shop's own sheets; what is no Spanish one of them comes back as it is. */
export function englishWord(text: string): string {
  return ENGLISH.get(plain(text)) ?? text;
}

/** The same, plain, as the English sheet has it. */
export function inEnglishWords(word: string): string {
  return plain(englishWord(word));
}

/** The Spanish of a word of the shop's own sheets. */
export function spanishWord(english: string): string {
  return WORDS.find(([word]) => word === english)?.[1] ?? english;
}
