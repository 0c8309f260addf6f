import type { Phrase } from "../phrasebook";

/** What a check can show, and what a cause would show there. */
const SHOWN: readonly Phrase[] = [
  ["about 2 V missing", "faltan unos 2 V"],
  ["discharged", "descargada"],
  ["charged", "cargada"],
  ["holds its voltage", "mantiene su tensión"],
  ["collapses", "se hunde"],
  ["2 V missing after charging", "faltan 2 V después de cargar"],
  ["within what is allowed", "dentro de lo permitido"],
  ["above what is allowed", "por encima de lo permitido"],
  ["hardly above the battery's own voltage", "apenas sobre la propia tensión de la batería"],
  ["below the regulated band", "bajo la banda regulada"],
  ["in the regulated band", "en la banda regulada"],
  ["no charging voltage", "sin tensión de carga"],
  ["below the band", "bajo la banda"],
  ["in the band", "en la banda"],
  ["above the band", "sobre la banda"],
  ["full and even", "plena y pareja"],
  ["low on all pairs alike", "baja en todos los pares por igual"],
  ["uneven", "desigual"],
  ["even", "pareja"],
  ["dead pairs", "pares muertos"],
  ["full", "plena"],
  ["below what it should be", "por debajo de lo debido"],
  ["none", "ninguna"],
  ["above what it should be", "por encima de lo debido"],
  ["as it should be", "como debe ser"],
  ["three alike", "tres iguales"],
  ["an open winding or lead", "un devanado o cable abierto"],
  ["one winding low", "un devanado bajo"],
  ["one lead high", "un cable alto"],
  ["clear", "libre"],
  ["a path to ground", "un camino a masa"],
  ["held down on all phases", "hundida en todas las fases"],
  ["one phase held down", "una fase hundida"],
  ["as high as unplugged", "tan alta como desconectado"],
  ["all six in order", "los seis en orden"],
  ["one device open", "un dispositivo abierto"],
  ["one device shorted", "un dispositivo en corto"],
  ["one leg open", "una rama abierta"],
  ["both runs small", "ambos tramos pequeños"],
  ["large in the B+ run", "grande en el tramo B+"],
  ["large in the ground run", "grande en el tramo de masa"],
  ["all small", "todas pequeñas"],
  ["volts across one connector", "voltios en un conector"],
  ["as expected", "como se espera"],
  ["far above what is expected", "muy por encima de lo esperado"],
];

const WITH_A_CAUSE: readonly Phrase[] = [
  ["{} (expected with this cause: {})", "{} (con esta causa se espera: {})"],
  [
    "{} (expected with this cause: {}; likelier with others)",
    "{} (con esta causa se espera: {}; más probable con otras)",
  ],
  [
    "all six devices conducting one way and blocking the other",
    "los seis dispositivos conducen en un sentido y bloquean en el otro",
  ],
  ["one upper device OL both ways", "un dispositivo superior OL en ambos sentidos"],
  ["one lower device OL both ways", "un dispositivo inferior OL en ambos sentidos"],
  ["one upper device near 0 V both ways", "un dispositivo superior cerca de 0 V en ambos sentidos"],
  ["one lower device near 0 V both ways", "un dispositivo inferior cerca de 0 V en ambos sentidos"],
  ["both devices of one phase OL both ways", "los dos dispositivos de una fase OL en ambos sentidos"],
  [
    "readings like a good unit (the control circuit hides the open device)",
    "lecturas como de una unidad buena (el circuito de control oculta el dispositivo abierto)",
  ],
  ["three like resistances", "tres resistencias iguales"],
  ["three nearly like resistances", "tres resistencias casi iguales"],
  ["one winding a little low", "un devanado algo bajo"],
  ["two pairs OL", "dos pares OL"],
  ["one pair at twice the other two", "un par al doble de los otros dos"],
  ["two pairs high by the same amount", "dos pares altos en la misma medida"],
  ["full and even AC", "CA plena y pareja"],
  ["AC somewhat low on all pairs alike", "CA algo baja en todos los pares por igual"],
  ["AC at half to two thirds on all pairs alike", "CA de la mitad a dos tercios en todos los pares por igual"],
  ["AC below half on all pairs alike", "CA bajo la mitad en todos los pares por igual"],
  ["AC uneven by some percent", "CA desigual en algunos por ciento"],
  ["uneven AC", "CA desigual"],
  ["very uneven AC", "CA muy desigual"],
  ["two dead pairs", "dos pares muertos"],
  ["specific gravity", "densidad"],
  ["cells alike", "celdas iguales"],
  ["one cell far below the others", "una celda muy por debajo de las demás"],
  ["no path to ground", "ningún camino a masa"],
  ["a leak", "una fuga"],
  ["no leak", "ninguna fuga"],
  ["more than {v}", "más de {}"],
  ["a drop of volts at one connector", "una caída de voltios en un conector"],
  ["a few hundredths of a volt", "unas centésimas de voltio"],
  ["about 2 V less than a sound battery", "unos 2 V menos que una batería sana"],
  ["a collapse under load", "un hundimiento con carga"],
  ["a battery that holds its voltage", "una batería que mantiene su tensión"],
  ["the full voltage in the B+ run", "toda la tensión en el tramo B+"],
  ["the full voltage in the ground run", "toda la tensión en el tramo de masa"],
  ["{v} in the B+ run", "{} en el tramo B+"],
  ["{v} in the ground run", "{} en el tramo de masa"],
  ["three pairs alike near {v}", "tres pares iguales cerca de {}"],
  ["uneven pairs, the highest near {v}", "pares desiguales, el más alto cerca de {}"],
];

/** Readings that cannot all be true. */
const CONFLICTS: readonly Phrase[] = [
  [
    "{}: voltages of a {v} system; correct the nominal voltage or read again.",
    "{}: tensiones de un sistema de {}; corrija la tensión nominal o lea de nuevo.",
  ],
  [
    "Charged before the load test, yet the battery rested at {v}: charge it fully and repeat the load test.",
    "Cargada antes de la prueba de carga, pero la batería reposó a {}: cárguela del todo y repita la prueba de carga.",
  ],
  [
    "An alternator of this kind is not weighed, all else is: for generator and cut-out follow its manual.",
    "Un alternador de este tipo no se pondera, lo demás sí: para generador y disyuntor siga su manual.",
  ],
  [
    "Regulated voltage: the lowest, {v}, is not below the highest, {v}; correct the machine data. The common band is used meanwhile.",
    "Tensión regulada: la más baja, {}, no es menor que la más alta, {}; corrija los datos de la máquina. Mientras tanto vale la banda habitual.",
  ],
  [
    "Cranking voltage {v} is above the rested voltage {v}: a starter draws the battery down, so one of the two is of another moment. Read both again.",
    "La tensión de arranque {} supera la tensión en reposo {}: el arranque hace bajar la batería, así que una de las dos es de otro momento. Lea ambas de nuevo.",
  ],
  [
    "The battery was not charged in between, yet it rested at {v} once and at {v} before the load test; read the rested voltage again.",
    "La batería no se cargó entre tanto, pero reposó una vez a {} y a {} antes de la prueba de carga; lea de nuevo la tensión en reposo.",
  ],
  [
    "Load test: {v} under load is above the {v} before it, so no load was on when it was read. Repeat the load test.",
    "Prueba de carga: {} con carga supera los {} de antes, así que no había carga al leer. Repita la prueba de carga.",
  ],
  [
    "{}: far too low beside the other battery voltages; meter on the wrong range, or a lead off. Read again.",
    "{}: demasiado bajo junto a las otras tensiones de la batería; medidor en un rango equivocado o una punta suelta. Lea de nuevo.",
  ],
  [
    "Rested voltage {v}: a flat 12 V battery or a sound one of 6 V. Enter the nominal voltage from its label before it is charged.",
    "Tensión en reposo {}: una batería de 12 V descargada o una de 6 V en buen estado. Indique la tensión nominal de su etiqueta antes de cargarla.",
  ],
  [
    "Rested voltage {v}: the battery is flat. Charge it fully, let it rest and read again.",
    "Tensión en reposo {}: la batería está descargada. Cárguela del todo, déjela reposar y lea de nuevo.",
  ],
  [
    "Rested voltage {v} is more than a full battery has, {v}. Take off the surface charge, let it rest and read again, or correct its type.",
    "Tensión en reposo {}: más que una batería llena, {}. Quite la carga superficial, déjela reposar y lea de nuevo, o corrija su tipo.",
  ],
  [
    "Rested voltage {v} is hardly a battery's own: read again on the posts, then charge it, watched.",
    "Tensión en reposo {}: apenas es de una batería; lea de nuevo en los bornes y cárguela vigilada.",
  ],
  [
    "Rested voltage {v}: a lithium battery that has cut itself off, or is harmed. Wake and charge it only as its maker says.",
    "Tensión en reposo {}: una batería de litio que se ha desconectado o está dañada. Despiértela y cárguela solo como dice su fabricante.",
  ],
  [
    "Running voltage at test speed {v} was read at {v}, below {v} it counts as one at idle: raise the speed and read again.",
    "La tensión en marcha a régimen de prueba {} se leyó a {}, bajo {} cuenta como al ralentí: suba el régimen y lea de nuevo.",
  ],
  [
    "Idle at {v} is not below the test speed {v}; one of them is mistyped or they are swapped.",
    "El ralentí a {} no está bajo el régimen de prueba {}; uno está mal escrito o están cambiados.",
  ],
  [
    "Battery current {v} means discharging, yet {v} stand at the posts: the clamp was on backwards. Clamp with the arrow to the battery and read again.",
    "La corriente de batería {} significa descarga, pero en los bornes hay {}: la pinza estaba al revés. Póngala con la flecha hacia la batería y lea de nuevo.",
  ],
  [
    "Battery current {v} means charging, yet the {v} at speed are below the rested {v}: volts and amps cannot both be true. Read both again.",
    "La corriente de batería {} significa carga, pero los {} a régimen están bajo los {} en reposo: voltios y amperios no pueden ser ciertos a la vez. Lea ambos de nuevo.",
  ],
  [
    "{v} into the battery, yet only {v} leave the regulator: the clamp was not round all leads, or the speed differed. Read both at the same speed.",
    "{} entran en la batería, pero solo {} salen del regulador: la pinza no abarcaba todos los cables o el régimen era otro. Lea ambas al mismo régimen.",
  ],
  [
    "Ripple {v}: that is the DC voltage; the meter does not block DC or stood on DC. Use the AC range.",
    "Rizado {}: eso es la tensión CC; el medidor no bloquea la CC o estaba en CC. Use el rango CA.",
  ],
  [
    "{}: below zero, so the leads were swapped (or the machine feeds backwards); its size is used.",
    "{}: bajo cero, así que las puntas estaban cambiadas (o la máquina alimenta al revés); se usa su tamaño.",
  ],
  [
    "No-load AC {v} at {v} is {v} per 1000 rpm, and more than {v} cannot be: speed or volts are mistyped, or the nominal is another machine's. Read both again.",
    "La CA sin carga {} a {} son {} por 1000 rpm, y más de {} no puede ser: el régimen o los voltios están mal escritos, o el nominal es de otra máquina. Lea ambos de nuevo.",
  ],
  [
    "AC under load {v} is above the {v} that the unplugged stator gives at that speed: a speed is mistyped or the plug was not joined.",
    "La CA con carga {} supera los {} que el estátor desconectado da a ese régimen: un régimen está mal escrito o el conector no estaba unido.",
  ],
  [
    "{}: less than the meter's own leads show when shorted; the leads touched, or the meter stood on another range. Read again.",
    "{}: menos de lo que muestran las propias puntas en corto; las puntas se tocaron o el medidor estaba en otro rango. Lea de nuevo.",
  ],
  [
    "Diode check, {} bank: the devices conduct in reverse and block forward, so red and black were exchanged. The rows are read the other way round; take the bank again with the leads as shown.",
    "Prueba de diodos, banco {}: los dispositivos conducen en inverso y bloquean en directo, así que roja y negra estaban cambiadas. Las filas se leen al revés; tome el banco de nuevo como se muestra.",
  ],
];

export const EVIDENCE_PHRASES: readonly Phrase[] = [...SHOWN, ...WITH_A_CAUSE, ...CONFLICTS];
