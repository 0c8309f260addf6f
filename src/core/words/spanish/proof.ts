import type { Phrase } from "../phrasebook";

/** What the readings after the work prove. */
export const PROOF_PHRASES: readonly Phrase[] = [
  ["Something new: {}", "Algo nuevo: {}"],
  [
    "Nothing was found before, so there is nothing to prove.",
    "Antes no se encontró nada, así que no hay nada que probar.",
  ],
  ["Not repaired: the {} is still in question ({v}).", "Sin reparar: sigue en duda: {} ({})."],
  ["Not repaired: still outside the limit ({}).", "Sin reparar: sigue fuera de límite ({})."],
  [
    "Not proven yet: take again what showed the fault ({}).",
    "Aún sin probar: vuelva a tomar lo que mostró la avería ({}).",
  ],
  [
    "Repaired: the {} reads in order now (chance of a fault in it {v}).",
    "Reparado: las lecturas están ahora en orden: {} (probabilidad de avería {}).",
  ],
  [
    "Repaired: what showed the fault passes now ({}), and nothing fails.",
    "Reparado: lo que mostró la avería es ahora conforme ({}), y nada falla.",
  ],
  ["Not proven yet: the chance of a fault in the {} is {v}.", "Aún sin probar: probabilidad de avería: {}, {}."],
];
