import type { Phrase } from "../phrasebook";

/** Words by which the record of quotes is read back, beside those of a quote's sheet. */
export const QUOTE_RECORD_PHRASES: readonly Phrase[] = [
  ["Quoted on", "Presupuestado el"],
  ["Job sheet", "Hoja de trabajo"],
  ["State", "Estado"],
  ["Chance", "Probabilidad"],
  ["Verdict", "Dictamen"],
  ["Quoted as", "Presupuestado como"],
  ["Decided on", "Decidido el"],
  ["Quote sheet", "Hoja de presupuesto"],
  ["faulty", "con avería"],
  ["suspect", "bajo sospecha"],
  ["unproven", "sin probar"],
  ["serviceable", "en buen estado"],
  ["wiring", "cableado"],
  ["load", "consumos"],
  ["none", "ninguna"],
];
