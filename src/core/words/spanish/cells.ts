import type { Say } from "../language";
import type { Phrase } from "../phrasebook";
import { NOTICE_PHRASES } from "./notices";
import { SPANISH_PHRASES } from "./phrases";

/** How cells put together what the pane shows apart. */
const CELL_PHRASES: readonly Phrase[] = [
  ["{}: {}", "{}: {}"],
  ["none", "ninguna"],
  ["No further check could change this verdict.", "Ninguna otra prueba podría cambiar este dictamen."],
  ["{}, about {v} min.", "{}, unos {} min."],
  ["{} ({v}) would mean: {}", "{} ({}) significaría: {}"],
  ["{}: {} ({v}) would mean {}.", "{}: {} ({}) significaría {}."],
  ["for it, {}", "a favor, {}"],
  ["against it, {}", "en contra, {}"],
];

const BOOK = SPANISH_PHRASES.with([...CELL_PHRASES, ...NOTICE_PHRASES]);

/** Spanish of what worksheet functions say; what the book does not know is better read in English than not at all. */
export const cellsInSpanish: Say = (text) => BOOK.said(text) ?? text;
