import { QUOTE_SHEET_PHRASES } from "../words/spanish/quote-sheet";
import { SHOP_SHEET_PHRASES } from "../words/spanish/shop-sheets";

export function plain(text: string): string {
  return text.normalize("NFKD").replaceAll(/\p{M}/gu, "").trim().toLowerCase().replaceAll(/\s+/gu, " ");
}

const ENGLISH: ReadonlyMap<string, string> = new Map(
  [...QUOTE_SHEET_PHRASES, ...SHOP_SHEET_PHRASES].map(([english, spanish]) => [plain(spanish), plain(english)]),
);

/** A label or word of the shop's own sheets, plain, as the English sheet has it. */
export function inEnglishWords(word: string): string {
  return ENGLISH.get(word) ?? word;
}
