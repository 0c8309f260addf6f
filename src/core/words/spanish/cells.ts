import type { Say } from "../language";
import type { Phrase } from "../phrasebook";
import { AUDIT_WORDS } from "./audit-words";
import { GIVEN_PHRASES } from "./given-cells";
import { NOTICE_PHRASES } from "./notices";
import { SPANISH_PHRASES } from "./phrases";

/** How cells put together what the pane shows apart. */
const CELL_PHRASES: readonly Phrase[] = [
  ["{}: {}", "{}: {}"],
  ["No further check could change this verdict.", "Ninguna otra prueba podría cambiar este dictamen."],
  ["{}, about {v} min.", "{}, unos {} min."],
  ["{} ({v}) would mean: {}", "{} ({}) significaría: {}"],
  ["{}: {} ({v}) would mean {}.", "{}: {} ({}) significaría {}."],
  ["for it, {}", "a favor, {}"],
  ["against it, {}", "en contra, {}"],
];

/** What a line of WHY is about. */
const REASONS: readonly Phrase[] = [
  ["verdict", "dictamen"],
  ["contradiction", "contradicción"],
  ["read again", "leer de nuevo"],
  ["for", "a favor"],
  ["against", "en contra"],
  ["other cause", "otra causa"],
  ["next check", "siguiente prueba"],
  ["would change it", "lo cambiaría"],
  ["none", "ninguna"],
];

const BOOK = SPANISH_PHRASES.with([...CELL_PHRASES, ...REASONS, ...NOTICE_PHRASES, ...GIVEN_PHRASES, ...AUDIT_WORDS]);

/** Spanish of what worksheet functions say; what the book does not know is better read in English than not at all. */
export const cellsInSpanish: Say = (text) => BOOK.said(text) ?? text;
