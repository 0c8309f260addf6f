import type { Phrase } from "../phrasebook";

/** What was wrong with the cells that a function was given: what it says of its arguments, and no pane does. */
export const GIVEN_PHRASES: readonly Phrase[] = [
  ["{}: {} does not fit; give {}.", "{}: lo dado no encaja ({}); dé {}."],
  // Arguments.
  ["readings", "lecturas"],
  ["machine", "máquina"],
  ["knownGood", "piezas buenas (knownGood)"],
  ["readingId", "lectura (readingId)"],
  ["value", "valor"],
  ["names", "nombres"],
  ["number of causes", "número de causas"],
  ["rule", "regla"],
  ["meter", "medidor"],
  ["meter, row {v}", "medidor, fila {}"],
  ["setting", "ajuste"],
  ['setting "{raw}"', "ajuste «{}»"],
  ["low and high", "mínimo y máximo"],
  ["limits", "límites"],
  ["A known header in the first row", "un encabezado conocido en la primera fila"],
  ["A known name among the names", "un nombre conocido entre los nombres"],
  // What came.
  ["a range of {v} × {v} cells", "un rango de {} × {} celdas"],
  ["a range of {v} columns", "un rango de {} columnas"],
  ["{v} columns", "{} columnas"],
  ["{v} names for {v} columns", "{} nombres para {} columnas"],
  ["{v} rows of readings", "{} filas de lecturas"],
  ["a row of labels without a row of readings below", "una fila de etiquetas sin una fila de lecturas debajo"],
  ["more than one label in a single column", "más de una etiqueta en una sola columna"],
  [
    '"{raw}" with a value of its own right of the first labels',
    "«{}» con un valor propio a la derecha de las primeras etiquetas",
  ],
  ["cells that read both across and down", "celdas que se leen tanto a lo ancho como hacia abajo"],
  ["the lower one, {v}, is above the higher one, {v}", "el más bajo, {}, supera el más alto, {}"],
  // What is asked for instead.
  [
    "two columns (label, value), or a header row with a row of values below, with labels such as Rested voltage",
    "dos columnas (etiqueta, valor), o una fila de encabezados con una fila de valores debajo, con etiquetas como Tensión en reposo",
  ],
  [
    "two columns (label, value), or a header row and one row of readings",
    "dos columnas (etiqueta, valor), o una fila de encabezados y una fila de lecturas",
  ],
  ["the header row and one row", "la fila de encabezados y una sola fila"],
  [
    "a reading of the catalogue, such as Rested voltage or key-off-draw",
    "una lectura del catálogo, como Tensión en reposo o key-off-draw",
  ],
  [
    "what the columns hold, such as Machine and Rested voltage",
    "lo que contienen las columnas, como Máquina y Tensión en reposo",
  ],
  [
    "one name for each column of the table, blank for a column to leave out",
    "un nombre por cada columna de la tabla, en blanco el de una columna que se omite",
  ],
  ["one column: each result spills sideways", "una columna: cada resultado ocupa varias celdas a su derecha"],
  ["one cell or {v} × {v} cells like the other arguments", "una celda, o {} × {} celdas como en los demás argumentos"],
  ["{v} rows × {v} columns", "{} filas × {} columnas"],
  ["five: function, up to, ± %, ± counts, smallest step", "cinco: función, hasta, ± %, ± pasos, paso más pequeño"],
  ["the function, such as DC volts", "la función, como DC volts"],
  ["a share from {v} to {v}", "una parte de {} a {}"],
  ["a number of proven repairs, from {v} to {v}", "un número de reparaciones probadas, de {} a {}"],
  [
    "one of faulty from, serviceable up to, in order beforehand, or the name of a fault",
    "faulty from, serviceable up to, in order beforehand o el nombre de una avería",
  ],
  ["at least one limit", "al menos un límite"],
  ["exchange them", "intercámbielos"],
];
