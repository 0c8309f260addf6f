import type { Phrase } from "../phrasebook";

/** What was wrong with something typed, what came, what to enter. */
const TYPED: readonly Phrase[] = [
  ['{}: "{raw}" cannot be read; enter {}.', "{}: «{}» no se puede leer; escriba {}."],
  ["{}: {v} is not possible; enter {v}.", "{}: {} no es posible; escriba {}."],
  ['{}: "{raw}" can be read in two ways; {}.', "{}: «{}» se puede leer de dos maneras; {}."],
  ["{} is missing; enter {}.", "Falta {}; escriba {}."],
  ["{}: {}; {}.", "{}: {}; {}."],
  [
    "{}: no solution was found for these values, so no number is given; check the machine data.",
    "{}: no se halló solución para estos valores, así que no se da ningún número; revise los datos de la máquina.",
  ],
  ["charging circuit", "circuito de carga"],
  ["a number", "un número"],
  ["a number in {v}", "un número en {}"],
  ["a number in {}", "un número en {}"],
  ["a number in {}, or OL for over-range", "un número en {}, u OL si está fuera de rango"],
  ["a number in specific gravity, such as 1.265", "un número de densidad, como 1,265"],
  ["a share such as 0.5 or 50 %", "una parte como 0,5 o 50 %"],
  ["one value only", "un solo valor"],
  ["the value itself", "el propio valor"],
  ["text", "texto"],
  ["one of: {raw}", "una de: {}"],
  [
    "write the thousands without a comma, or the decimals with a point",
    "escriba los miles sin coma, o los decimales con punto",
  ],
  ["write milliohm (mΩ) or megohm (MΩ)", "escriba miliohmio (mΩ) o megaohmio (MΩ)"],
  ["a reading", "una lectura"],
  ["a reading there, or select another cell", "una lectura allí, o seleccione otra celda"],
  [
    "{raw} is missing; enter a reading there, or select another cell.",
    "{} está en blanco; escriba una lectura allí o seleccione otra celda.",
  ],
  ['{raw}: "{raw}" cannot be read; enter a reading.', "{}: «{}» no se puede leer; escriba una lectura."],
];

/** What a battery or a machine cannot be. */
const IMPOSSIBLE: readonly Phrase[] = [
  ["machine data", "datos de la máquina"],
  ["load test", "prueba de carga"],
  ["rested voltage", "tensión en reposo"],
  ["battery type", "tipo de batería"],
  ["battery open-circuit voltage", "tensión de la batería en circuito abierto"],
  ["cold cranking amps", "corriente de arranque en frío"],
  ["no-load AC per 1000 rpm", "CA sin carga por cada 1000 rpm"],
  ["winding inductance", "inductancia del devanado"],
  ["pairs of poles", "pares de polos"],
  ["set point", "punto de regulación"],
  ["battery resistance", "resistencia de la batería"],
  ["{} cannot be turned into {}", "{} no se puede pasar a {}"],
  [
    "enter the {raw} rating from the battery's label or data sheet",
    "escriba el valor {} de la etiqueta o la hoja de datos de la batería",
  ],
  ...["SAE", "EN", "DIN", "IEC"].flatMap((standard): Phrase[] => [
    [`{v} ${standard} ({})`, `{} ${standard} ({})`],
    [`${standard} ({})`, `${standard} ({})`],
  ]),
  ["{v} at {v}", "{} a {}"],
  ["then to {v} after {v}", "luego hasta {} tras {}"],
  ["then to {v} after {v} or {v}", "luego hasta {} tras {} o {}"],
  ["break-even speed", "régimen de equilibrio"],
  ["it is more than this machine gives at any speed", "es más de lo que esta máquina da a cualquier régimen"],
  ["switch something off, or check the rated output", "apague algo, o revise la potencia nominal"],
  [
    "a machine with {v} per 1000 rpm and {v} cannot give {v} at {v}",
    "una máquina con {} por 1000 rpm y {} no puede dar {} a {}",
  ],
  [
    "check rated output, no-load AC and winding resistance",
    "revise la potencia nominal, la CA sin carga y la resistencia de devanados",
  ],
  ["the lowest {}, {v}, is above the highest, {v}", "{}: el valor más bajo, {}, supera el más alto, {}"],
  ["regulated voltage", "tensión regulada"],
  ["check both", "revise ambos"],
  ["poles come in pairs, and {v} were given", "los polos van por pares, y se dieron {}"],
  ["enter an even number", "escriba un número par"],
  ["{v} at rest is no {v} battery", "{} en reposo no es una batería de {}"],
  ["check its nominal voltage and the reading", "revise su tensión nominal y la lectura"],
  [
    "at {v} rested the battery is below 75 % charge ({v})",
    "con {} en reposo la batería está bajo el 75 % de carga ({})",
  ],
  ["charge it, let it rest and test again", "cárguela, déjela reposar y pruebe de nuevo"],
  [
    "this load test and its limits are for lead-acid batteries",
    "esta prueba de carga y sus límites son para baterías de plomo-ácido",
  ],
  ["test a lithium battery as its maker says", "pruebe una batería de litio como dice su fabricante"],
  [
    "{v} is a charging voltage for {} batteries, not a rested one",
    "{} es una tensión de carga en baterías {}, no de reposo",
  ],
  ["switch everything off, let it rest and read again", "apague todo, déjela reposar y lea de nuevo"],
  [
    "give the nominal voltage, 6 for a 6 V battery or 12 for a dead 12 V one",
    "dé la tensión nominal, 6 en una batería de 6 V o 12 en una de 12 V muerta",
  ],
  [
    "lithium is known here with four cells, which is a 12 V battery",
    "el litio se conoce aquí con cuatro celdas, que es una batería de 12 V",
  ],
  ["leave the nominal voltage at 12 or choose another type", "deje la tensión nominal en 12 o elija otro tipo"],
  ["three readings of zero have no unbalance", "tres lecturas de cero no tienen desequilibrio"],
  ["check the leads and the range, and read again", "revise las puntas y el rango, y lea de nuevo"],
];

/** What was wrong with a table or a sheet that was asked for. Names of sheets, tables and cells stay as they are. */
const WORKBOOK: readonly Phrase[] = [
  [
    'The sheet "{raw}" is protected; unprotect it and type again.',
    "La hoja «{}» está protegida; desprotéjala y escriba de nuevo.",
  ],
  [
    "No column is matched to a reading yet. Match at least one and try again.",
    "Aún no hay columna con una lectura. Indique al menos una y pruebe de nuevo.",
  ],
  ["Two columns are matched to {}. Leave one of them out.", "Dos columnas contienen {}. Omita una de ellas."],
  ['"{raw}" is no column. Enter its letter, such as K.', "«{}» no es una columna. Escriba su letra, como K."],
  [
    "The results would cover the table's own column {raw}. Choose a column at its right.",
    "Los resultados taparían la propia columna {} de la tabla. Elija una columna a su derecha.",
  ],
  [
    "Merged cells are in the way: {raw}. Nothing was written; clear it or choose another column.",
    "Unas celdas combinadas estorban: {}. No se escribió nada; bórrelas o elija otra columna.",
  ],
  [
    "A formula is in the way: {raw}. Nothing was written; clear it or choose another column.",
    "Una fórmula estorba: {}. No se escribió nada; bórrela o elija otra columna.",
  ],
  [
    '"{raw}" is in the way: {raw}. Nothing was written; clear it or choose another column.',
    "«{}» estorba: {}. No se escribió nada; bórrelo o elija otra columna.",
  ],
  [
    'The sheet "{raw}": no row with headers such as Machine and Rested voltage was found; select the header row of the table from its first to its last column.',
    "La hoja «{}»: no se halló ninguna fila con encabezados como Machine y Rested voltage; seleccione la fila de encabezados de la tabla, de la primera a la última columna.",
  ],
  [
    "A row of readings under {raw} is missing; enter readings below the headers, or select another header row.",
    "Falta una fila de lecturas bajo {}; escriba lecturas bajo los encabezados o seleccione otra fila de encabezados.",
  ],
  // Said when nothing can be fetched any more.
  [
    "The shop's computer cannot be reached. What you typed stays in its field; try again when it is back.",
    "No se alcanza el ordenador del taller. Lo que escribió queda en su campo; pruebe de nuevo cuando vuelva.",
  ],
];

export const REFUSAL_PHRASES: readonly Phrase[] = [...TYPED, ...IMPOSSIBLE, ...WORKBOOK];
