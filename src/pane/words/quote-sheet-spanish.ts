import type { Phrase } from "../../core/words/phrasebook";
import { QUOTE_PHRASES } from "../../core/words/spanish/quote";

/** What a quote's sheet says beside what it is worked out to: title, notes, hints, marks. */
export const QUOTE_TEMPLATE_PHRASES: readonly Phrase[] = [
  ...QUOTE_PHRASES,
  ["Quote", "Presupuesto"],
  ["Quotes", "Presupuestos"],
  ["Quotes:…41", "Presupuestos: qué se presupuestó, y con qué dictamen"],
  [
    "One…140",
    "Una fila por presupuesto dado, escrita por el panel o a mano. Responde, cuando vuelve una pieza, si se probó que estaba mal.",
  ],
  ["State…37", "Estado de la pieza cuando se presupuestó."],
  ["yyyy-mm-dd", "dd/mm/yyyy"],
  ["The…81", "El último día en que se mantienen estos precios; después el presupuesto queda marcado."],
  ["Number…58", "Número o nombre de una de las maneras de abajo; en blanco: la primera."],
  ["Minutes…45", "Minutos ya dedicados a las comprobaciones de este trabajo."],
  ["The…94", "El motivo, si es trabajo de garantía: entonces cada línea vale cero. En blanco: paga el cliente."],
  ["Part…64", "Pieza y estado cuando se dio el presupuesto, como estátor: con avería."],
  ["The…42", "El total tal como se dio al cliente."],
  ["What the customer said.", "Lo que dijo el cliente."],
  ["What is quoted, and why", "Qué se presupuesta, y por qué"],
  ["No verdict…33", "Aún no hay dictamen: no se presupuesta nada"],
  [
    "This…84",
    "Esto no se puede presupuestar: seleccione la primera celda de los cálculos a la derecha para ver por qué",
  ],
  [
    "The…124",
    "Las líneas de abajo son las que el cliente respondió; ahora se presupuestaría de otro modo, como muestran los cálculos a la derecha",
  ],
  ["Outdated:…60", "Desactualizado: el dictamen ha cambiado. Se presupuestó cuando era "],
  ["; now it is ", "; ahora es "],
  ["Expired on ", "Venció el "],
  ["Prices…53", "Los precios o las condiciones han cambiado: se presupuestó en "],
  ["More…55", "Hay más líneas de las que caben: están en los cálculos a la derecha."],
  ["Worked…71", "Calculado a partir del trabajo, los precios y las condiciones; aquí no se escribe nada"],
];
