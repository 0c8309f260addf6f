import { FAULTS } from "../../diagnosis/faults";
import { SPANISH_LABELS } from "../../diagnosis/faults-spanish";
import type { Phrase } from "../phrasebook";

/** Parts as sentences name them. */
const PARTS: readonly Phrase[] = [
  ["battery", "batería"],
  ["regulator-rectifier", "regulador-rectificador"],
  ["stator", "estátor"],
  ["rotor", "rotor"],
  ["wiring", "cableado"],
  ["load", "consumos"],
];

const CHANCES: readonly Phrase[] = [
  ["over 99 %", "más del 99 %"],
  ["under 1 %", "menos del 1 %"],
];

/** The verdict and the states of parts, with and without the part that a headline has named already. */
const VERDICTS: readonly Phrase[] = [
  ["{}: faulty ({}), {}.", "{}: con avería ({}), {}."],
  ["{}: faulty ({}), {}; {}.", "{}: con avería ({}), {}; {}."],
  ["{}: suspect ({}), {}; {}.", "{}: bajo sospecha ({}), {}; {}."],
  ["{}: serviceable; its own checks are in order.", "{}: en buen estado; sus propias comprobaciones están en orden."],
  ["{}: unproven; not shown in order yet: {}.", "{}: sin probar; aún no se ha visto en orden: {}."],
  [
    "{}: unproven; its own checks are in order, but {} is not ruled out ({}).",
    "{}: sin probar; sus propias comprobaciones están en orden, pero no se descarta: {} ({}).",
  ],
  ["{v}: {}; {}.", "{}: {}; {}."],
  ["over {v}: {}; {}.", "más del {}: {}; {}."],
  ["under {v}: {}; {}.", "menos del {}: {}; {}."],
  ["{v}: {}.", "{}: {}."],
  ["over {v}: {}.", "más del {}: {}."],
  ["its own checks are in order.", "sus propias comprobaciones están en orden."],
  ["not shown in order yet: {}.", "aún no se ha visto en orden: {}."],
  [
    "its own checks are in order, but {} is not ruled out ({}).",
    "sus propias comprobaciones están en orden, pero no se descarta: {} ({}).",
  ],
  ["not proven", "no está probado"],
  ["no check of the part itself shows it yet", "aún no lo muestra ninguna comprobación de la propia pieza"],
  ["no fault found ({}); not fully checked: {}.", "sin avería ({}); sin comprobar del todo: {}."],
  ["no fault found ({}); every part is checked.", "sin avería ({}); todas las piezas están comprobadas."],
  ["no fault found so far ({}); in question: {}.", "por ahora sin avería ({}); en duda: {}."],
  [
    "no fault found so far, yet something is wrong ({}); likeliest: {}.",
    "por ahora sin avería, pero algo no está bien ({}); lo más probable: {}.",
  ],
  [
    "no fault found so far ({}); not fully checked yet: {}.",
    "por ahora sin avería ({}); aún sin comprobar del todo: {}.",
  ],
  ["{} that all is in order", "{} de que todo está en orden"],
  ["{} ({})", "{} ({})"],
];

/** What a check would mean, in short. */
const MEANINGS: readonly Phrase[] = [
  ["no fault found ({})", "sin avería ({})"],
  ["no part named yet ({})", "aún sin pieza señalada ({})"],
  ["{} faulty ({})", "{} con avería ({})"],
  ["{} suspect ({})", "{} bajo sospecha ({})"],
  ["{} serviceable ({})", "{} en buen estado ({})"],
  ["{} unproven ({})", "{} sin probar ({})"],
];

/** On what grounds a part is called faulty. */
const GROUNDS: readonly Phrase[] = [
  [
    "the stator gives full and even AC unplugged, and with it plugged in the running voltage is low (measure both runs first)",
    "el estátor da CA plena y pareja desconectado, y con él conectado la tensión en marcha es baja (mida antes ambos tramos)",
  ],
  [
    "nothing comes from the regulator at speed though the stator gives AC unplugged (look at the main fuse first)",
    "a régimen no sale nada del regulador aunque el estátor da CA desconectado (mire antes el fusible principal)",
  ],
  [
    "nothing comes from the regulator at speed though the windings are whole (look at the main fuse first)",
    "a régimen no sale nada del regulador aunque los devanados están enteros (mire antes el fusible principal)",
  ],
  [
    "nothing comes from the regulator at speed though the stator gives AC plugged in (look at the main fuse first)",
    "a régimen no sale nada del regulador aunque el estátor da CA conectado (mire antes el fusible principal)",
  ],
  [
    "the stator gives even AC unplugged, both runs are sound, and yet the running voltage is low",
    "el estátor da CA pareja desconectado, ambos tramos están sanos, y aun así la tensión en marcha es baja",
  ],
  ["the load test fails", "la prueba de carga falla"],
  ["it collapses while cranking although it is not empty", "se hunde al arrancar aunque no está descargada"],
  ["a cell's voltage is missing at rest", "en reposo falta la tensión de una celda"],
  ["a cell's acid stays far behind the others", "el ácido de una celda queda muy por debajo del de las demás"],
  ["the key-off draw is above what is allowed", "el consumo en reposo supera lo permitido"],
  ["the key-on load is far above the nominal", "el consumo con contacto dado supera con mucho el nominal"],
  [
    "the voltage at the battery posts runs above the regulated limit",
    "la tensión en los bornes de la batería supera el límite regulado",
  ],
  ["plugged in, the AC shows one phase tied down", "conectado, la CA muestra una fase hundida"],
  ["plugged in, the AC of all phases is held down", "conectado, la CA de todas las fases está hundida"],
  [
    "plugged in, the AC stands as high as unplugged while nothing charges",
    "conectado, la CA es tan alta como desconectado mientras nada carga",
  ],
  [
    "a device blocks both ways among conducting sisters",
    "un dispositivo bloquea en ambos sentidos entre hermanos que conducen",
  ],
  ["a device conducts both ways", "un dispositivo conduce en ambos sentidos"],
  ["both devices of one phase block both ways", "los dos dispositivos de una fase bloquean en ambos sentidos"],
  ["it conducts from B+ to ground or to its case", "conduce de B+ a masa o a su carcasa"],
  ["the no-load AC is uneven", "la CA sin carga es desigual"],
  ["the windings differ by more than the meter explains", "los devanados difieren más de lo que explica el medidor"],
  ["the windings show an open one", "los devanados muestran uno abierto"],
  ["pairs are dead with the stator unplugged", "hay pares muertos con el estátor desconectado"],
  ["a winding conducts to ground", "un devanado conduce a masa"],
  ["the no-load AC is low though the winding is whole", "la CA sin carga es baja aunque el devanado está entero"],
  ["the field winding is open", "el devanado de campo está abierto"],
  ["the no-load AC is low on all pairs alike", "la CA sin carga es baja en todos los pares por igual"],
  ["the B+ run drops too much", "el tramo B+ cae demasiado"],
  ["the ground run drops too much", "el tramo de masa cae demasiado"],
  ["one lead reads high at the plug", "un cable lee alto en el conector"],
  ["a phase connector drops too much", "un conector de fase cae demasiado"],
  ["full voltage stands across the B+ run", "el tramo B+ tiene toda la tensión entre sus extremos"],
];

/** Checks of a part itself, by the names that sentences give them. */
const OWN_CHECKS: readonly Phrase[] = [
  ["voltage at test speed", "tensión a régimen de prueba"],
  ["charging current, ripple or AC under load", "corriente de carga, rizado o CA con carga"],
  ["no-load AC against its nominal", "CA sin carga frente a su nominal"],
  ["winding to ground", "devanado a masa"],
  ["B+ drop", "caída B+"],
  ["ground drop", "caída de masa"],
  ["resistance at the stator plug", "resistencia en el conector del estátor"],
];

export const FAULT_PHRASES: readonly Phrase[] = [
  ...FAULTS.map(({ id, label }): Phrase => [label, SPANISH_LABELS[id]]),
  ...PARTS,
  ...CHANCES,
  ...VERDICTS,
  ...MEANINGS,
  ...GROUNDS,
  ...OWN_CHECKS,
];
