import type { Phrase } from "../phrasebook";

/** Headers and states of an audit, where all of it is said: parts and checks have their names elsewhere. */
export const AUDIT_WORDS: readonly Phrase[] = [
  ["Part", "Pieza"],
  ["State", "Estado"],
  ["Chance", "Probabilidad"],
  ["Days until flat", "Días hasta descargarse"],
  ["Order", "Orden"],
  ["serviceable", "en buen estado"],
  ["faulty", "con avería"],
  ["suspect", "bajo sospecha"],
  ["unproven", "sin probar"],
  ["not understood", "no se entiende"],
];
