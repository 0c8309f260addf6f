import type { Phrase } from "../phrasebook";

/** What the diode check finds in devices and banks. */
const FOUND: readonly Phrase[] = [
  ["the upper device of phase {t}", "el dispositivo superior de la fase {}"],
  ["the lower device of phase {t}", "el dispositivo inferior de la fase {}"],
  ["{} forward, {} in reverse", "{} en directo, {} en inverso"],
  ["not read", "sin leer"],
  ["{} reads near zero both ways ({}): shorted", "{} lee casi cero en ambos sentidos ({}): en corto"],
  [
    "{} reads near zero one way and the other was not read ({})",
    "{} lee casi cero en un sentido y el otro no se leyó ({})",
  ],
  [
    "{} reads near zero one way only ({}), which no device does",
    "{} lee casi cero en un solo sentido ({}), lo que ningún dispositivo hace",
  ],
  ["All upper devices conduct both ways alike", "Todos los dispositivos superiores conducen igual en ambos sentidos"],
  ["All lower devices conduct both ways alike", "Todos los dispositivos inferiores conducen igual en ambos sentidos"],
  [
    "{} conducts both ways ({}) where it should block in reverse: it leaks",
    "{} conduce en ambos sentidos ({}) donde debería bloquear en inverso: tiene fuga",
  ],
  ["{} conducts in reverse and was not read forward ({})", "{} conduce en inverso y no se leyó en directo ({})"],
  [
    "{} reads the wrong way round ({}), and a device does not turn round inside",
    "{} lee al revés ({}), y un dispositivo no se da la vuelta por dentro",
  ],
  ["{} reads {} where it should conduct: open", "{} lee {} donde debería conducir: abierto"],
  ["{} reads {} while its sister conducts: open", "{} lee {} mientras su hermano conduce: abierto"],
  ["{} reads {} while its sisters conduct: open", "{} lee {} mientras sus hermanos conducen: abierto"],
  ["No {} device conducts, where each should", "Ningún dispositivo {} conduce, donde todos deberían"],
  [
    "No {} device conducts either way: controlled devices read so, and so does a missing contact at {}",
    "Ningún dispositivo {} conduce en ningún sentido: así leen los controlados, y también un contacto que falta en {}",
  ],
  ["{} reads {}, unlike its sisters", "{} lee {}, distinto de sus hermanos"],
  ["{} reads {}, and no two of its bank agree", "{} lee {}, y no hay dos de su banco que coincidan"],
  [
    "{} reads {} forward where its sisters block, as controlled devices should",
    "{} lee {} en directo donde sus hermanos bloquean, como deben los controlados",
  ],
  ["the {} bank reads {} forward, {}", "el banco {} lee {} en directo, {}"],
  ["the {} bank reads in reverse {}", "el banco {} lee en inverso {}"],
  [
    "lower than a silicon junction and alike on every phase: a good unit with a second path in parallel reads so, and a fixed 0.5 V rule does not apply",
    "menos que una unión de silicio e igual en cada fase: así lee una unidad buena con un segundo camino en paralelo, y no vale una regla fija de 0,5 V",
  ],
  [
    "more than one silicon junction: two in series read so, and so does poor contact",
    "más que una unión de silicio: así leen dos en serie, y también un mal contacto",
  ],
  [
    "lower than plain diodes give and alike on every phase, which speaks for a second path in parallel",
    "menos de lo que dan los diodos simples e igual en cada fase, lo que habla de un segundo camino en paralelo",
  ],
  ["more than a silicon junction gives", "más de lo que da una unión de silicio"],
  [
    "as plain diodes read and not as a bank with a parallel path",
    "como leen los diodos simples y no como un banco con un camino en paralelo",
  ],
  [
    "not as a bank with a parallel path reads, 0.1 to 0.2 V as a rule",
    "no como lee un banco con un camino en paralelo, por lo común de 0,1 a 0,2 V",
  ],
  ["though controlled devices block both ways", "aunque los dispositivos controlados bloquean en ambos sentidos"],
  ["unlike the known-good part of the same number", "distinto de la pieza buena conocida del mismo número"],
  [
    "Phase {t} conducts in neither bank while its sisters do: open at its terminal or lead inside the unit",
    "La fase {} no conduce en ningún banco mientras sus hermanas sí: abierta en su terminal o cable dentro de la unidad",
  ],
  [
    "Every reading is near zero: touching leads or a wrong meter function read so too",
    "Todas las lecturas son casi cero: así leen también unas puntas que se tocan o una función equivocada del medidor",
  ],
  [
    "This meter shows over-range above {v} and does not open a silicon junction, so its OL proves nothing",
    "Este medidor muestra fuera de rango sobre {} y no abre una unión de silicio, así que su OL no prueba nada",
  ],
  ["Nothing was read", "No se leyó nada"],
  ["Not read: {}", "Sin leer: {}"],
  ["{v} more finding", "{} hallazgo más"],
  ["{v} more findings", "{} hallazgos más"],
  ["{}.", "{}."],
];

const BANKS: readonly Phrase[] = [
  ["upper", "superior"],
  ["lower", "inferior"],
  ["ground", "masa"],
  ["upper forward {}", "superior directo {}"],
  ["lower forward {}", "inferior directo {}"],
  ["upper reverse {}", "superior inverso {}"],
  ["lower reverse {}", "inferior inverso {}"],
];

/** A whole bank in order, and what it is held against. */
const IN_ORDER: readonly Phrase[] = [
  ["upper bank {v} forward, OL in reverse", "banco superior {} en directo, OL en inverso"],
  ["lower bank {v} forward, OL in reverse", "banco inferior {} en directo, OL en inverso"],
  ["upper bank {v} forward", "banco superior {} en directo"],
  ["lower bank {v} forward", "banco inferior {} en directo"],
  ["upper bank OL both ways", "banco superior OL en ambos sentidos"],
  ["lower bank OL both ways", "banco inferior OL en ambos sentidos"],
  ["{}: as {}", "{}: como {}"],
  ["six plain diodes read", "leen seis diodos simples"],
  ["plain diodes read", "leen los diodos simples"],
  ["plain diodes", "diodos simples"],
  ["parallel path", "camino en paralelo"],
  ["parallel path lower", "camino en paralelo en el banco inferior"],
  ["controlled upper", "banco superior controlado"],
  ["controlled lower", "banco inferior controlado"],
  ["mosfet", "transistores con diodo interno"],
  ["unknown", "circuito desconocido"],
  [
    "a unit with a parallel path in its upper bank reads",
    "lee una unidad con un camino en paralelo en el banco superior",
  ],
  [
    "a unit with a parallel path in its lower bank reads",
    "lee una unidad con un camino en paralelo en el banco inferior",
  ],
  ["a unit with a controlled upper bank reads", "lee una unidad con el banco superior controlado"],
  ["a unit with a controlled lower bank reads", "lee una unidad con el banco inferior controlado"],
  ["transistors with body diodes read", "leen los transistores con diodo interno"],
  ["the known-good part of the same number reads", "lee la pieza buena conocida del mismo número"],
  ["{v} known-good parts of the same number read", "leen {} piezas buenas conocidas del mismo número"],
  [
    "{v} of the known-good parts reads faulty and is left out",
    "{} de las piezas buenas conocidas lee con avería y queda fuera",
  ],
  [
    "{v} of the known-good parts read faulty and are left out",
    "{} de las piezas buenas conocidas leen con avería y quedan fuera",
  ],
  [
    "Red and black were swapped: forward and reverse stand in each other's rows and are judged the right way round",
    "Roja y negra estaban cambiadas: directo e inverso están en la fila del otro y se juzgan como corresponde",
  ],
  [
    "Red and black were swapped in the {} bank: its forward and reverse rows are judged the right way round",
    "Roja y negra estaban cambiadas en el banco {}: sus filas de directo e inverso se juzgan como corresponde",
  ],
  [
    "The check shows the power devices only: judge the regulating side by the running voltage",
    "La prueba muestra solo los dispositivos de potencia: juzgue la regulación por la tensión en marcha",
  ],
  [
    "An open {} device would hide behind the parallel path: AC under load and ripple would show it.",
    "Un dispositivo {} abierto quedaría oculto tras el camino en paralelo: lo mostrarían la CA con carga y el rizado.",
  ],
  [
    "Whether the upper devices fire does not show: AC under load would show it.",
    "No se ve si los dispositivos superiores disparan: lo mostraría la CA con carga.",
  ],
  [
    "Whether the lower devices fire does not show: AC under load would show it.",
    "No se ve si los dispositivos inferiores disparan: lo mostraría la CA con carga.",
  ],
];

/** What to do next. */
const NEXT: readonly Phrase[] = [
  [
    "read it once more with clean, firm contact; if it stays, replace the regulator-rectifier",
    "léalo otra vez con contacto limpio y firme; si sigue igual, cambie el regulador-rectificador",
  ],
  ["clean the terminals and read it both ways again", "limpie los terminales y léalo de nuevo en ambos sentidos"],
  ["clean the terminals and read again", "limpie los terminales y lea de nuevo"],
  ["read it the other way: near zero both ways is a short", "léalo en el otro sentido: casi cero en ambos es un corto"],
  [
    "make sure that the unit is unplugged on both sides and read again; a known-good part shows whether this circuit reads so",
    "desconecte la unidad por ambos lados y lea de nuevo; una pieza buena conocida muestra si este circuito lee así",
  ],
  [
    "read it forward as well; where it blocks forward, the leads were swapped",
    "léalo también en directo; si en directo bloquea, las puntas estaban cambiadas",
  ],
  [
    "the leads were swapped at this reading: read it both ways again",
    "las puntas estaban cambiadas en esta lectura: léalo de nuevo en ambos sentidos",
  ],
  ["read it in reverse as well", "léalo también en inverso"],
  [
    "hold the probe on bare metal of the {} terminal and read again; if all stay OL, the {} connection inside is open",
    "apoye la punta en metal desnudo del terminal {} y lea de nuevo; si todos siguen en OL, la conexión interna {} está abierta",
  ],
  [
    "find out what is inside, or read a known-good part of the same number",
    "averigüe qué hay dentro, o lea una pieza buena conocida del mismo número",
  ],
  [
    "clean its terminal and read again; if it stays, compare with a known-good part of the same number",
    "limpie su terminal y lea de nuevo; si sigue igual, compare con una pieza buena conocida del mismo número",
  ],
  [
    "read a known-good part of the same number with the same meter, or find out what is inside",
    "lea una pieza buena conocida del mismo número con el mismo medidor, o averigüe qué hay dentro",
  ],
  [
    "check what is inside this unit, or read a known-good part of the same number",
    "compruebe qué hay dentro de esta unidad, o lea una pieza buena conocida del mismo número",
  ],
  [
    "make sure that part number, meter and temperature are the same, and read both parts again",
    "asegúrese de que número de pieza, medidor y temperatura son los mismos, y lea ambas piezas de nuevo",
  ],
  [
    "hold the leads apart, where the display must show OL, and read again; if every reading stays near zero, the unit is shorted throughout",
    "separe las puntas (debe mostrar OL) y lea de nuevo; si todo sigue casi en cero, la unidad está toda en corto",
  ],
  ["use the diode check of a meter that reads to 2 V", "use la prueba de diodos de un medidor que lea hasta 2 V"],
  [
    "take the diode check, unit unplugged on both sides",
    "haga la prueba de diodos, unidad desconectada por ambos lados",
  ],
  [
    "clean terminal {t} to bare metal and read it again; if it stays OL, replace the regulator-rectifier",
    "limpie el terminal {} hasta el metal y léalo de nuevo; si sigue en OL, cambie el regulador-rectificador",
  ],
  ["read {}", "lea {}"],
];

/** One reading of the check as its field tells it. */
const READINGS: readonly Phrase[] = [
  ["{}, as it should ({}).", "{}, como debe ({})."],
  ["{}, red and black swapped, as it should ({}).", "{}, roja y negra cambiadas, como debe ({})."],
  [
    "{}, like its sisters; without the circuit inside or a known-good part nothing says that it should.",
    "{}, como sus hermanos; sin conocer el circuito ni una pieza buena conocida nada dice que deba.",
  ],
  ["{} ({}): {}.", "{} ({}): {}."],
  ["{}: {}.", "{}: {}."],
  ["{} conducts", "{} conduce"],
  ["{} blocks", "{} bloquea"],
  ["{} open", "{} abierto"],
  ["{} short", "{} en corto"],
  ["{} parallel path", "{} camino en paralelo"],
  ["{} odd one out", "{} el distinto"],
];

/** B+ to ground, and the terminals to the case. */
const UNIT: readonly Phrase[] = [
  ["{} ({}).", "{} ({})."],
  [
    "B+ to ground reads {} with red on B+ and {} with red on ground",
    "B+ a masa lee {} con roja en B+ y {} con roja en masa",
  ],
  ["{}: shorted", "{}: en corto"],
  ["{}: near zero one way only", "{}: casi cero en un solo sentido"],
  ["{}: less than one junction where it should block", "{}: menos que una unión donde debería bloquear"],
  ["{}: less than two junctions in series", "{}: menos que dos uniones en serie"],
  ["{}: no short", "{}: sin corto"],
  ["Terminals to the case were not read", "No se leyeron los terminales a la carcasa"],
  ["Every terminal is insulated from the case", "Todos los terminales están aislados de la carcasa"],
  [
    "The lowest terminal lies above {v} to the case, which does not settle it",
    "El terminal más bajo está sobre {} a la carcasa, lo que no lo resuelve",
  ],
  [
    "A terminal reads {v} to the case, as the ground terminal does where the case is the ground",
    "Un terminal lee {} a la carcasa, como el de masa donde la carcasa es la masa",
  ],
  ["A terminal reads {v} to the case, less than {v}", "Un terminal lee {} a la carcasa, menos de {}"],
];

export const DIODE_PHRASES: readonly Phrase[] = [...FOUND, ...BANKS, ...IN_ORDER, ...NEXT, ...READINGS, ...UNIT];
