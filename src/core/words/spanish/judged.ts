import type { Phrase } from "../phrasebook";

/** A reading against its limit. */
const JUDGED: readonly Phrase[] = [
  ["{} meets the limit of {} ({}).", "{} cumple el límite: {} ({})."],
  ["{} misses the limit of {} ({}).", "{} no cumple el límite: {} ({})."],
  ["{} against the limit of {} ({}): {}.", "{} frente al límite: {} ({}): {}."],
  ["{} misses the limit of {} ({}), but {}: {}.", "{} no cumple el límite: {} ({}), pero {}: {}."],
  ["{} meets the limit of {} ({}), but {}: {}.", "{} cumple el límite: {} ({}), pero {}: {}."],
  ["{} against the limit of {} ({}): {}, but {}: {}.", "{} frente al límite: {} ({}): {}, pero {}: {}."],
  ["at least {v}", "al menos {}"],
  ["at most {v}", "como mucho {}"],
  ["no limit", "sin límite"],
  ["{} {v}", "{} {}"],
  ["{} > {v}", "{} > {}"],
  ["{} < {v}", "{} < {}"],
  ["{} over {v}", "{} más de {}"],
  ["{} under {v}", "{} menos de {}"],
  ["{} over-range", "{} fuera de rango"],
  ["not read.", "sin leer."],
  ["the limit is not known closely enough to decide", "el límite no se conoce lo bastante para decidir"],
  ["not known closely enough to decide", "no se conoce lo bastante para decidir"],
  ["too close to decide with {v}", "demasiado cerca para decidir con {}"],
  ["too close to decide", "demasiado cerca para decidir"],
  [
    "{}: no sourced limit is known, so it is not judged.",
    "{}: no se conoce un límite con fuente, así que no se juzga.",
  ],
  ["{}: a word is not judged against a limit.", "{}: una palabra no se juzga con un límite."],
  ["{}: this reading cannot be used.", "{}: esta lectura no sirve."],
  ["{}: with {v} flowing a drop says nothing.", "{}: con {} una caída no dice nada."],
  ["{} {v} with {v} flowing: the run is open.", "{} {} con {}: el tramo está abierto."],
  [
    "{} is machine data: other readings are judged against it.",
    "{} es dato de la máquina: con él se juzgan otras lecturas.",
  ],
  [
    "{} says how another reading was taken and has no limit of its own.",
    "{} dice cómo se tomó otra lectura y no tiene límite propio.",
  ],
  [
    "A half-wave winding ends on the iron by design: this says nothing.",
    "Un devanado de media onda termina a masa por diseño: esto no dice nada.",
  ],
  [
    "{}: a cell is judged against its sisters, and no other cell was read.",
    "{}: una celda se juzga con sus hermanas, y no se leyó otra.",
  ],
  ["the battery is discharged: charge it and read again.", "la batería está descargada: cárguela y lea de nuevo."],
  ["the battery is discharged", "la batería está descargada"],
  ["charge it and read again", "cárguela y lea de nuevo"],
  ["A frozen battery is neither charged nor tested.", "Una batería helada ni se carga ni se prueba."],
  ["the load was too light or too short to prove it", "la carga fue demasiado ligera o corta para probarlo"],
  ["the load was heavier or longer than the limit is for", "la carga fue mayor o más larga que la del límite"],
  ["{v} for {v}, {v} for {v} asked for", "{} durante {}, se piden {} durante {}"],
  ["a discharged battery reads low as well", "una batería descargada también lee bajo"],
  ["enter the rested voltage before the test", "escriba la tensión en reposo antes de la prueba"],
  [
    "Load-test voltage: without the load-test current it is not known whether the load was half the cold cranking amps.",
    "Tensión de la prueba de carga: sin la corriente de la prueba no se sabe si la carga fue la mitad de la corriente de arranque en frío.",
  ],
  [
    "Load-test voltage: without the cold cranking amps it is not known whether the load was half the cold cranking amps.",
    "Tensión de la prueba de carga: sin la corriente de arranque en frío no se sabe si la carga fue la mitad de ella.",
  ],
  [
    "{}: the speed was not noted, so its level is not judged.",
    "{}: no se anotó el régimen, así que no se juzga su nivel.",
  ],
  [
    "{}: the machine's no-load figure is not known, so its level is not judged.",
    "{}: no se conoce el dato sin carga de la máquina, así que no se juzga su nivel.",
  ],
  [
    "{}: the three readings agree within {v}, limit {v} ({}).",
    "{}: las tres lecturas coinciden dentro del {}, límite {} ({}).",
  ],
  ["{}: {}, more than {v} ({}).", "{}: {}, más del {} ({})."],
  [
    "{}: {}, but such readings tell nothing below {v} apart; limit {v} ({}).",
    "{}: {}, pero tales lecturas no dicen nada por debajo del {} de diferencia; límite {} ({}).",
  ],
  [
    "{}: the readings come to zero, so nothing is left to compare; limit {v} ({}).",
    "{}: las lecturas dan cero, así que no queda nada que comparar; límite {} ({}).",
  ],
  ["{}: {}, too close to decide; limit {v} ({}).", "{}: {}, demasiado cerca para decidir; límite {} ({})."],
  ["the three readings agree", "las tres lecturas coinciden"],
  ["{t} lies {v} below the mean", "{} está un {} bajo la media"],
  ["{t} lies {v} above the mean", "{} está un {} sobre la media"],
  ["Not every pair was read.", "No se leyeron todos los pares."],
  [
    "No-load AC is not in proportion to the two speeds ({v} apart): a speed or a reading is wrong; read both again.",
    "La CA sin carga no es proporcional a los dos regímenes ({} de diferencia): un régimen o una lectura está mal; lea ambos de nuevo.",
  ],
];

/** What three unequal windings or outputs point to. */
const PATTERNS: readonly Phrase[] = [
  ["Winding resistance: {}.", "Resistencia de devanados: {}."],
  [
    "No path between any two terminals: two breaks at least, or leads without contact",
    "Ningún camino entre dos terminales: al menos dos roturas, o puntas sin contacto",
  ],
  ["over-range between two terminals is a break", "fuera de rango entre dos terminales es una rotura"],
  [
    "Terminal {t} has no path to the others: winding or lead {t} is open",
    "El terminal {} no tiene camino a los otros: el devanado o cable {} está abierto",
  ],
  ["Only {t} gives output: winding or lead {t} is open", "Solo {} da salida: el devanado o cable {} está abierto"],
  ["{t} alone is low: turns shorted between its terminals", "Solo {} está bajo: espiras en corto entre sus terminales"],
  ["{t} and {t} are low: turns shorted in winding {t}", "{} y {} están bajos: espiras en corto en el devanado {}"],
  [
    "{t} reads more than the other two together, which no three windings do: read it again",
    "{} lee más que los otros dos juntos, lo que ningún estátor hace: léalo de nuevo",
  ],
  ["{t} reads twice the other two: its winding is open", "{} lee el doble de los otros dos: su devanado está abierto"],
  [
    "{t} reads twice the other two: winding {t} is shorted",
    "{} lee el doble de los otros dos: el devanado {} está en corto",
  ],
  [
    "{t} reads twice the other two: an open winding in a delta, winding {t} shorted in a wye",
    "{} lee el doble de los otros dos: un devanado abierto en triángulo, el devanado {} en corto en estrella",
  ],
  [
    "{t} reads low: turns of winding {t} shorted, or resistance at terminal {t}",
    "{} lee bajo: espiras del devanado {} en corto, o resistencia en el terminal {}",
  ],
  ["{t} reads low: resistance at terminal {t}", "{} lee bajo: resistencia en el terminal {}"],
  [
    "{t} reads low: resistance at terminal {t} or in winding {t}",
    "{} lee bajo: resistencia en el terminal {} o en el devanado {}",
  ],
  [
    "{t} reads low: resistance at terminal {t}; in a delta turns of winding {t} shorted",
    "{} lee bajo: resistencia en el terminal {}; en triángulo, espiras del devanado {} en corto",
  ],
  ["{t} reads high: turns of winding {t} shorted", "{} lee alto: espiras del devanado {} en corto"],
  ["{t} reads high: a poor joint in its winding", "{} lee alto: una mala unión en su devanado"],
  [
    "{t} reads high: turns of winding {t} shorted in a wye, a poor joint in its winding in a delta",
    "{} lee alto: espiras del devanado {} en corto en estrella, una mala unión en su devanado en triángulo",
  ],
];

export const JUDGED_PHRASES: readonly Phrase[] = [...JUDGED, ...PATTERNS];
