import type { Phrase } from "../phrasebook";

/** Where a limit comes from. */
const ORIGINS: readonly Phrase[] = [
  ["{v} charge, {} battery: {}", "{} de carga, batería {}: {}"],
  [
    "{v} charge of a lead-acid battery; its type is not given",
    "{} de carga de una batería de plomo-ácido; no se da su tipo",
  ],
  ["flooded", "de ácido líquido"],
  ["calcium flooded", "de ácido líquido, calcio"],
  ["AGM", "AGM"],
  ["gel", "de gel"],
  ["lithium iron phosphate", "de litio hierro fosfato"],
  ["common practice of the trade", "práctica habitual del oficio"],
  [
    "State-of-charge table attributed to BCI, as reproduced in the public-domain deep-cycle battery FAQ",
    "tabla de estado de carga atribuida a BCI, según la reproduce la guía de baterías de dominio público",
  ],
  [
    "Open-circuit curve of a lithium iron phosphate cell, default of an open-source device tree (2024)",
    "curva en circuito abierto de una celda de litio hierro fosfato, de un árbol de dispositivos de código abierto (2024)",
  ],
  [
    "US Army TM 5-1185, battery condition, freezing and gravity tables",
    "US Army TM 5-1185, tablas de estado, congelación y densidad",
  ],
  ["load-test table at {v}, {raw}", "tabla de la prueba de carga a {}, {}"],
  [
    "load-test table at 21 °C and above; battery temperature not given, {v} to {v} assumed",
    "tabla de la prueba de carga a 21 °C o más; no se da la temperatura de la batería, se supone de {} a {}",
  ],
  [
    "9.6 V by common practice at 21 °C; never below 9.0 V, US Army TM 9-2320-211-20",
    "9,6 V según la práctica habitual a 21 °C; nunca menos de 9,0 V, US Army TM 9-2320-211-20",
  ],
  ["regulated voltage of this machine", "tensión regulada de esta máquina"],
  [
    "{}; lower end from what a healthy machine of these data makes at {v}",
    "{}; extremo inferior según lo que da una máquina sana con estos datos a {}",
  ],
  ["{}; read below {v}: raise the speed and read again", "{}; leída bajo {}: suba el régimen y lea de nuevo"],
  ["{}; without a regulator it may stay lower", "{}; sin regulador puede quedar más baja"],
  ["{}; what it makes at idle depends on speed and load", "{}; lo que da al ralentí depende del régimen y del consumo"],
  ["{}; current during the test not read", "{}; no se leyó la corriente durante la prueba"],
  [
    "0.5 V at 20 A by common practice, 0.7 V by US Navy NAVEDTRA 14273",
    "0,5 V a 20 A según la práctica habitual, 0,7 V según US Navy NAVEDTRA 14273",
  ],
  ["0.2 to 0.4 V at 20 A, common practice", "de 0,2 a 0,4 V a 20 A, práctica habitual"],
  ["0.1 V for each connection at 20 A, US Navy NAVEDTRA 14273", "0,1 V por conexión a 20 A, US Navy NAVEDTRA 14273"],
  ["machine's figure {} at {v} without a tolerance, at {v}", "dato de la máquina: {} a {}, sin tolerancia; a {}"],
  ["machine's figure {} at {v} ±{v}, at {v}", "dato de la máquina: {} a {} ±{}; a {}"],
  ["machine's figure {} at {v}, {}, {}", "dato de la máquina: {} a {}, {}, {}"],
  ["stator temperature not noted", "temperatura del estátor sin anotar"],
  ["stator at {v}", "estátor a {}"],
  ["leads {v}", "puntas {}"],
  ["meter leads not read", "puntas del medidor sin leer"],
  [
    "at least 13.6 V, US Army TM 9-2330-356-14, and below 13.0 V no float; at most 15.0 V, and above 15.5 V the battery gasses away; machine data not given",
    "al menos 13,6 V, US Army TM 9-2330-356-14, y bajo 13,0 V no hay flotación; como mucho 15,0 V, y sobre 15,5 V la batería se gasifica; sin datos de la máquina",
  ],
  [
    "above its resting voltage, at most 14.6 V for four lithium cells; machine data not given",
    "sobre su tensión en reposo, como mucho 14,6 V para cuatro celdas de litio; sin datos de la máquina",
  ],
  ["key-off draw allowed for this machine", "consumo en reposo permitido para esta máquina"],
  [
    "up to 5 mA for motorcycles and ATVs, up to 50 mA for cars, common practice",
    "hasta 5 mA en motos y cuatriciclos, hasta 50 mA en automóviles, práctica habitual",
  ],
  [
    "what a healthy machine of these data leaves for the battery at this speed",
    "lo que una máquina sana con estos datos deja a la batería a este régimen",
  ],
  [
    "at test speed the machine carries its loads and the battery gains",
    "a régimen de prueba la máquina sostiene sus consumos y la batería gana",
  ],
  ["lights-on load of this machine, and a tenth more", "consumo con luces de esta máquina, y una décima parte más"],
  [
    "lights-on load of this machine with the added accessories, and a tenth more",
    "consumo con luces de esta máquina y los accesorios añadidos, y una décima parte más",
  ],
  [
    "common practice 2 % of one stator at one speed; NEMA MG 1 tolerates 5 % at most",
    "práctica habitual: 2 % de un estátor a un régimen; NEMA MG 1 tolera como mucho un 5 %",
  ],
  [
    "ANSI/EASA AR100: 2 % from the mean, random-wound; over 5 %, common practice, it fails",
    "ANSI/EASA AR100: 2 % de la media, devanado al azar; sobre el 5 %, práctica habitual, falla",
  ],
  [
    "IEEE 43: 5 MΩ; below 1 MΩ, common practice, it is grounded",
    "IEEE 43: 5 MΩ; bajo 1 MΩ, práctica habitual, está a masa",
  ],
  ["IEEE 43: {v} at 40 °C, {}, referred to {v}", "IEEE 43: {} a 40 °C, {}, referido a {}"],
  [
    "IEEE 43: {v} at 40 °C, {}; winding temperature not noted",
    "IEEE 43: {} a 40 °C, {}; temperatura del devanado sin anotar",
  ],
  ["random-wound", "devanado al azar"],
  [
    "2 to 6 Ω for 12 V field windings, common practice; shorted below 0.5 Ω, open above 50 Ω",
    "de 2 a 6 Ω en devanados de campo de 12 V, práctica habitual; en corto bajo 0,5 Ω, abierto sobre 50 Ω",
  ],
  ["a winding conducts from terminal to terminal", "un devanado conduce de terminal a terminal"],
  [
    "in proportion to speed, within what meter and tachometer leave open",
    "en proporción al régimen, dentro de lo que dejan abierto medidor y tacómetro",
  ],
  ["B+ to ground never reads metal, common practice", "de B+ a masa nunca se lee metal, práctica habitual"],
  [
    "terminals are insulated from the case, common practice",
    "los terminales están aislados de la carcasa, práctica habitual",
  ],
  ["against its sisters in the same bank", "frente a sus hermanos del mismo banco"],
  ["{}, instruction sheets of general-purpose meters", "{}, hojas de instrucciones de medidores de uso general"],
  ["{v} known-good part of the same number", "{} pieza buena conocida del mismo número"],
  ["{v} known-good parts of the same number", "{} piezas buenas conocidas del mismo número"],
  ["{}, in proportion to speed", "{}, en proporción al régimen"],
  ["reading by reading against {v} known-good part", "lectura por lectura frente a {} pieza buena conocida"],
  ["reading by reading against {v} known-good parts", "lectura por lectura frente a {} piezas buenas conocidas"],
  [
    "tolerance interval of {v} known-good parts ({v} of parts, {v} confidence)",
    "intervalo de tolerancia de {} piezas buenas conocidas ({} de las piezas, {} de confianza)",
  ],
  ["{v} below the best cell, {}", "{} bajo la mejor celda, {}"],
  [
    "between any two cells of a charged battery, US Army TM 9-6140-200-14",
    "entre dos celdas cualesquiera de una batería cargada, US Army TM 9-6140-200-14",
  ],
  ["spread set by the shop", "diferencia fijada por el taller"],
  ["freezing point of the acid at the charge that was read", "punto de congelación del ácido con la carga leída"],
  [
    "freezing point of the acid of a flat battery; its charge was not read",
    "punto de congelación del ácido de una batería descargada; no se leyó su carga",
  ],
];

/** What people quote for a reading. */
const CUSTOMARY: readonly Phrase[] = [
  [
    "commonly quoted with the engine warm, from about 2000 rpm up",
    "se suele citar con el motor caliente, desde unas 2000 rpm",
  ],
  [
    "commonly quoted at 0.05 to 0.1 V; regulators that chop give two and three times that when healthy",
    "se suele citar de 0,05 a 0,1 V; los reguladores que conmutan dan dos y tres veces eso estando sanos",
  ],
  [
    "small permanent-magnet stators give about 12 to 25 V per 1000 rpm, a rule of thumb",
    "los estátores pequeños de imanes dan unos 12 a 25 V por 1000 rpm, regla práctica",
  ],
  [
    "commonly quoted at 12 to 25 V per 1000 rpm for permanent magnets",
    "se suele citar de 12 a 25 V por 1000 rpm con imanes permanentes",
  ],
  [
    "commonly quoted: up to 5 mA for motorcycles and ATVs, up to 50 mA for cars",
    "se suele citar: hasta 5 mA en motos y cuatriciclos, hasta 50 mA en automóviles",
  ],
  [
    "commonly falls below 5 % of the capacity once the battery is full",
    "suele bajar del 5 % de la capacidad con la batería llena",
  ],
];

/** What stands in for machine data that were not given. */
const ASSUMED: readonly Phrase[] = [
  ["rated output taken as 375 W", "potencia nominal tomada como 375 W"],
  ["no-load AC taken as 19 V per 1000 rpm", "CA sin carga tomada como 19 V por 1000 rpm"],
  ["winding resistance taken from the rated output", "resistencia de devanados tomada de la potencia nominal"],
  ["regulated at a typical 14.4 V", "regulada a 14,4 V, lo corriente"],
  ["shunt regulator taken", "se toma un regulador en derivación"],
  ["AGM battery taken", "se toma una batería AGM"],
  ["{v} poles taken", "se toman {} polos"],
  ["battery of 14 Ah taken", "se toma una batería de 14 Ah"],
  ["battery charged to 75 % taken", "se toma una batería cargada al 75 %"],
  ["load taken as 55 % of the rated current", "consumo tomado como el 55 % de la corriente nominal"],
];

export const LIMIT_PHRASES: readonly Phrase[] = [...ORIGINS, ...CUSTOMARY, ...ASSUMED];
