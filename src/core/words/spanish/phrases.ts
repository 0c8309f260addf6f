import type { Say } from "../language";
import { SPANISH_GRAMMAR } from "./grammar";
import { Phrasebook } from "../phrasebook";
import { CATALOGUE_PHRASES } from "./catalogue";
import { CHECK_LABEL_PHRASES } from "./check-labels";
import { DIODE_PHRASES } from "./diodes";
import { EVIDENCE_PHRASES } from "./evidence";
import { FAULT_PHRASES } from "./faults";
import { JUDGED_PHRASES } from "./judged";
import { LIMIT_PHRASES } from "./limits";
import { PROOF_PHRASES } from "./proof";
import { REFUSAL_PHRASES } from "./refusals";

/** Names and sentences of the computing side in Spanish, but for how checks are taken: cells never say that. */
export const SPANISH_PHRASES = new Phrasebook(
  [
    ...JUDGED_PHRASES,
    ...LIMIT_PHRASES,
    ...DIODE_PHRASES,
    ...EVIDENCE_PHRASES,
    ...FAULT_PHRASES,
    ...PROOF_PHRASES,
    ...REFUSAL_PHRASES,
    ...CHECK_LABEL_PHRASES,
    ...CATALOGUE_PHRASES,
  ],
  SPANISH_GRAMMAR,
);

/** What the book does not know is better read in English than not at all. */
export const inSpanish: Say = (text) => SPANISH_PHRASES.said(text) ?? text;
