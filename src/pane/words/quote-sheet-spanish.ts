import type { Phrase } from "../../core/words/phrasebook";
import { QUOTE_PHRASES } from "../../core/words/spanish/quote";

/** What a quote's sheet says beside what it is worked out to: title, notes, hints, marks. */
export const QUOTE_TEMPLATE_PHRASES: readonly Phrase[] = [
  ...QUOTE_PHRASES,
  ["Quote", "Presupuesto"],
  ["Quotes", "Presupuestos"],
  ["Quotes: what was quoted, on which verdict", "Presupuestos: qué se presupuestó, y con qué dictamen"],
  [
    "One row for each quote that was given, written by the pane or by hand. It answers, when a part comes back, whether that part was proven bad.",
    "Una fila por presupuesto dado, escrita por el panel o a mano. Responde, cuando vuelve una pieza, si se probó que estaba mal.",
  ],
  ["State of the part when it was quoted.", "Estado de la pieza cuando se presupuestó."],
  ["yyyy-mm-dd", "dd/mm/yyyy"],
  [
    "The last day on which these prices are held; the quote is marked once it is over.",
    "El último día en que se mantienen estos precios; después el presupuesto queda marcado.",
  ],
  [
    "Number or name of one of the ways below; blank: the first.",
    "Número o nombre de una de las maneras de abajo; en blanco: la primera.",
  ],
  ["Minutes of testing already spent on this job.", "Minutos ya dedicados a las comprobaciones de este trabajo."],
  [
    "The reason, where this is warranty work: every line is at zero then. Blank: the customer pays.",
    "El motivo, si es trabajo de garantía: entonces cada línea vale cero. En blanco: paga el cliente.",
  ],
  [
    "Part and state when the quote was given, such as stator: faulty.",
    "Pieza y estado cuando se dio el presupuesto, como estátor: con avería.",
  ],
  ["The total as it was given to the customer.", "El total tal como se dio al cliente."],
  ["What the customer said.", "Lo que dijo el cliente."],
  ["What is quoted, and why", "Qué se presupuesta, y por qué"],
  ["No verdict yet: nothing is quoted", "Aún no hay dictamen: no se presupuesta nada"],
  [
    "This cannot be quoted: select the first cell of the workings at the right to see why",
    "Esto no se puede presupuestar: seleccione la primera celda de los cálculos a la derecha para ver por qué",
  ],
  [
    "The lines below are those that the customer answered to; now it would be quoted otherwise, as the workings at the right show",
    "Las líneas de abajo son las que el cliente respondió; ahora se presupuestaría de otro modo, como muestran los cálculos a la derecha",
  ],
  [
    "Outdated: the verdict has changed since. Quoted when it was ",
    "Desactualizado: el dictamen ha cambiado. Se presupuestó cuando era ",
  ],
  ["; now it is ", "; ahora es "],
  ["Expired on ", "Venció el "],
  [
    "Prices or terms have changed since: it was quoted at ",
    "Los precios o las condiciones han cambiado: se presupuestó en ",
  ],
  [
    "More lines than fit stand in the workings at the right.",
    "Hay más líneas de las que caben: están en los cálculos a la derecha.",
  ],
  [
    "Worked out from the job, the prices and the terms; nothing to type here",
    "Calculado a partir del trabajo, los precios y las condiciones; aquí no se escribe nada",
  ],
];
