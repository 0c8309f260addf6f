import type { Phrase } from "../phrasebook";

/** What a fleet's table shows by its rows, and as a history. */
export const NOTICE_PHRASES: readonly Phrase[] = [
  ["a column that is not a reading; it was not used", "una columna que no es una lectura; no se usó"],
  ["a second column of the same reading; it was not used", "una segunda columna de la misma lectura; no se usó"],
  ["a totals row, left out", "una fila de totales, omitida"],
  ["the header row again, left out", "otra vez la fila de encabezados, omitida"],
  ["row {v}", "la fila {}"],
  ["row {v} of {raw}", "la fila {} de {}"],
  ["{v} row", "{} fila"],
  ["{v} rows", "{} filas"],
  [
    "the same machine on {v} as in {}, with {}; both rows stand.",
    "la misma máquina el {} que en {}, con {}; ambas filas quedan.",
  ],
  ["the same machine as in {}, with {}; both rows stand.", "la misma máquina que en {}, con {}; ambas filas quedan."],
  ["the same readings: entered twice", "las mismas lecturas: introducida dos veces"],
  [
    "other readings: two visits, two machines of one name, or a correction",
    "otras lecturas: dos visitas, dos máquinas con un mismo nombre o una corrección",
  ],
  [
    "serial number {raw} under a name that has {raw} in {}: two machines of one name, or a slip; they were taken as one.",
    "número de serie {} bajo un nombre que tiene {} en {}: dos máquinas con un mismo nombre o un descuido; se tomaron como una.",
  ],
  [
    "day and every reading are those of {raw} in {}: one visit under two names; both rows stand.",
    "el día y todas las lecturas son los de {} en {}: una visita bajo dos nombres; ambas filas quedan.",
  ],
  [
    "from {v} on all voltages {} read {}: as another meter does. Trends start anew there; hold both meters on one battery to tell which is right.",
    "desde el {} todas las tensiones {} leen {}: como con otro medidor. Las tendencias empiezan ahí de nuevo; ponga ambos medidores en una misma batería para saber cuál acierta.",
  ],
  ["on this machine", "en esta máquina"],
  ["on {v} machines", "en {} máquinas"],
  ["{v} higher", "un {} más"],
  ["{v} lower", "un {} menos"],
  [
    "{v} cell is written in {raw}, from this row on, the other {v} in {raw}; each was read in its own unit.",
    "{} celda está escrita en {}, desde esta fila, las otras {} en {}; cada una se leyó en su unidad.",
  ],
  [
    "{v} cells are written in {raw}, from this row on, the other {v} in {raw}; each was read in its own unit.",
    "{} celdas están escritas en {}, desde esta fila, las otras {} en {}; cada una se leyó en su unidad.",
  ],
  [
    "{v} stands far from the other readings of this time and would fit them in {raw}; it was read as it stands. If it is {raw}, write the unit with it.",
    "{} queda lejos de las otras lecturas de esa época y encajaría con ellas en {}; se leyó tal cual. Si es {}, escriba la unidad.",
  ],
  ["{v} more dates of this column cannot be read.", "Otras {} fechas de esta columna no se pueden leer."],
  ["a date such as {v}", "una fecha como {}"],
  ["the visit is left out of the machine's history.", "la visita queda fuera de la historia de la máquina."],
  [
    "the serial number is that of {raw} ({}, first in {}). {} They were taken as two.",
    "el número de serie es el de {} ({}, la primera en {}). {} Se tomaron como dos.",
  ],
  [
    "but for spaces, marks, accents or zeros the name is that of {raw} ({}, first in {}). {} They were taken as two.",
    "salvo espacios, signos, acentos o ceros el nombre es el de {} ({}, la primera en {}). {} Se tomaron como dos.",
  ],
  [
    "the name is but one letter from that of {raw} ({}, first in {}). {} They were taken as two.",
    "el nombre difiere en una letra del de {} ({}, la primera en {}). {} Se tomaron como dos.",
  ],
  ["From {v} on only this name comes: renamed?", "Desde el {} solo aparece este nombre: ¿cambió de nombre?"],
  ["One machine under two names?", "¿Una máquina bajo dos nombres?"],
  ["{} {v} higher from {v} on", "{} {} más alta desde el {}"],
  ["{} {v} lower from {v} on", "{} {} más baja desde el {}"],
  ["Key-off draw {v} higher from {v} on", "Consumo en reposo {} más alto desde el {}"],
  ["Key-off draw {v} lower from {v} on", "Consumo en reposo {} más bajo desde el {}"],
  [
    "{}: as a replaced battery does; its trend starts anew here.",
    "{}: como al cambiar la batería; su tendencia empieza aquí de nuevo.",
  ],
  [
    "{}: as a repair, a charge or a new fault does; its trend starts anew here.",
    "{}: como con una reparación, una carga o una avería nueva; su tendencia empieza aquí de nuevo.",
  ],
  [
    "another battery is written from {v} on ({raw}; before: {raw}); its trend starts anew here.",
    "desde el {} figura otra batería ({}; antes: {}); su tendencia empieza aquí de nuevo.",
  ],
  [
    "{v} lies {v} days before all other visits; it was taken as it stands.",
    "{} cae {} días antes de todas las demás visitas; se tomó tal cual.",
  ],
  [
    "{v} lies {v} days after all other visits; it was taken as it stands.",
    "{} cae {} días después de todas las demás visitas; se tomó tal cual.",
  ],
  [
    "the middle one of these readings is {v}; if the column is in {raw}, write the unit in its header.",
    "la lectura del medio es {}; si la columna está en {}, escriba la unidad en su encabezado.",
  ],
  [
    "no visit for {v} days since {v} (usual: {v}): in storage, or visits are missing.",
    "ninguna visita en {} días desde el {} (lo habitual: {}): guardada, o faltan visitas.",
  ],
  ["rested voltage {v} before, {v} after.", "tensión en reposo {} antes, {} después."],
];
