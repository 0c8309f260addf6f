import { CAUTIONS, type CautionId } from "../../readings/cautions";
import { stepsOf } from "../../readings/check-steps";
import { CHECKS } from "../../readings/checks";
import type { Phrase } from "../phrasebook";

/** Steps of the checks, Spanish, by their ids; step for step. */
export const CHECK_STEPS: Readonly<Record<string, readonly string[]>> = {
  "battery-at-rest": [
    "Mire primero la batería: grietas, bultos, fugas, bornes flojos o verdes.",
    "Todo apagado; luces encendidas 15 s, apagadas, y luego esperar, para quitar la carga superficial. Anote las horas de reposo.",
    "Medidor en voltios CC: roja en el propio borne positivo, negra en el borne negativo.",
  ],
  "cell-gravities": [
    "Solo baterías de ácido líquido con tapones. Suba y baje el ácido varias veces para que el densímetro tome su temperatura.",
    "Lea cada celda a la altura de los ojos, desde el borne positivo; devuelva el ácido a su propia celda.",
  ],
  "load-test": [
    "Batería al 75 % de carga o más; si no, cárguela y déjela reposar antes, y anote la tensión en reposo.",
    "Pinzas en los bornes, roja en el positivo, negra en el negativo, sin carga.",
    "La mitad de la corriente de arranque en frío durante 15 s; lea la tensión aún con la carga.",
  ],
  cranking: [
    "Encendido o combustible anulado como dice el manual.",
    "Roja en el borne positivo, negra en el negativo; arranque 5 s como mucho y lea el valor estable más bajo.",
  ],
  "key-off-draw": [
    "Llave quitada, todo apagado; espere hasta que todos los módulos duerman.",
    "Medidor en mA, puntas en las tomas de corriente: cable negativo suelto, roja en el cable, negra en el borne negativo.",
    "Una pinza de bajo rango en el cable negativo lo hace sin abrir el circuito.",
  ],
  "running-idle": [
    "Motor caliente, luces encendidas; anote el régimen.",
    "Medidor en voltios CC: roja en el borne positivo, negra en el borne negativo.",
  ],
  "running-test": [
    "Motor caliente, luces encendidas, régimen estable; anote el régimen.",
    "Voltios CC en los bornes, roja en el positivo, negra en el negativo.",
    "Medidor en voltios CA, en el mismo sitio: el rizado.",
    "Pinza CC alrededor de todos los cables del borne positivo, flecha hacia la batería: la corriente de batería, más es carga.",
  ],
  "no-load-ac": [
    "Motor parado: separe el conector del estátor. Sujete las puntas en dos terminales del estátor y arranque.",
    "Medidor en voltios CA; el mismo régimen para A–B, B–C y C–A, motor parado para cambiar las pinzas.",
    "Un segundo régimen muestra si la salida sube en proporción.",
  ],
  "loaded-ac": [
    "Conector unido; sondas traseras en los terminales del estátor con el motor parado.",
    "Medidor en voltios CA, valor eficaz verdadero; luces encendidas, el mismo régimen para A–B, B–C y C–A.",
  ],
  "winding-ohms": [
    "Motor parado, conector del estátor separado, estátor frío; anote su temperatura.",
    "Junte las dos puntas y anote lo que muestra el medidor.",
    "Lea A–B, B–C y C–A en el lado del estátor del conector.",
  ],
  "winding-to-ground": [
    "Motor parado, conector del estátor separado. Negra en metal desnudo del motor, roja en cada terminal del estátor por turno, rango más alto.",
  ],
  insulation: [
    "Solo donde el manual lo permite: conector del estátor separado, toda unidad electrónica desconectada.",
    "500 V CC de un terminal del estátor a metal desnudo del motor durante 1 minuto; después descargue el devanado.",
  ],
  rotor: ["Solo alternadores con devanado de campo: conector suelto, roja y negra en los dos terminales del campo."],
  "diode-check": [
    "Motor parado: unidad desconectada del estátor y de la instalación, en el banco o en su sitio.",
    "Superior, directo: roja en la fase, negra en B+. Superior, inverso: al revés.",
    "Inferior, directo: roja en masa, negra en la fase. Inferior, inverso: al revés.",
    "Anote OL donde el medidor muestra fuera de rango.",
  ],
  "output-short": ["Unidad desconectada por ambos lados: roja en B+ y negra en masa, luego al revés."],
  "case-leakage": [
    "Unidad desconectada por ambos lados, rango más alto: negra en la carcasa desnuda, roja en cada terminal por turno; anote el más bajo. Omita la masa donde la carcasa es la masa.",
  ],
  "voltage-drops": [
    "Conectores unidos, luces encendidas, motor a régimen de prueba, puntas sujetas con el motor parado.",
    "Tramo B+: roja en el terminal B+ del regulador, negra en el borne positivo de la batería.",
    "Tramo de masa: roja en el borne negativo de la batería, negra en la masa del regulador.",
    "Pinza en el cable B+: la corriente durante la prueba.",
  ],
  "phase-drops": [
    "Sondas traseras a ambos lados de cada conector de fase con el motor parado; voltios CA entre ellas a régimen de prueba, luces encendidas.",
  ],
  "key-on-load": [
    "Contacto dado, motor parado, luces y accesorios habituales encendidos; pinza CC en los cables del borne positivo.",
  ],
};

export const CAUTION_WORDS: Readonly<Record<CautionId, string>> = {
  manual:
    "Siga el manual de servicio de la máquina y las normas locales; en la duda, pregunte a un técnico autorizado.",
  hydrogen: "Las baterías desprenden hidrógeno: ni llama, ni chispa, ni cigarrillo cerca, y ventile el lugar.",
  acid: "El ácido de batería quema: gafas y guantes puestos, agua para enjuagar a mano.",
  "short circuit":
    "Fuera anillos, reloj y cadenas; una herramienta entre los bornes se suelda al instante y no se suelta.",
  lithium:
    "Nunca cargue una batería de litio bajo 0 °C, por encima de su propio límite ni con un modo de reparación para plomo-ácido.",
  "damaged battery": "Una batería helada, hinchada o con fugas ni se carga ni se prueba: retírela del servicio.",
  "moving parts": "Manos, mangas y puntas lejos de correas, cadenas, ventilador y ruedas.",
  "hot exhaust": "El escape y el motor queman, y los gases matan: en marcha solo al aire libre o con extracción.",
  stand: "Máquina en un caballete que no pueda rodar, ruedas calzadas, sin marcha metida.",
  "stator voltage":
    "Un estátor a régimen da mucho más que una tensión segura al tacto: manos fuera de terminales desnudos, puntas sujetas con el motor parado.",
  "stator plug": "Separe o una el conector del estátor solo con el motor parado.",
  "battery connected": "Nunca haga funcionar el motor con la batería desconectada.",
  "negative first": "El cable negativo se quita primero y se pone al final.",
  "ammeter in series":
    "Ni arrancar ni dar el contacto a través de un amperímetro: se funde su fusible o se rompe el medidor.",
  "modules asleep":
    "Espere a que todos los módulos duerman antes de leer el consumo, hasta 30 minutos en algunas máquinas.",
  insulation:
    "Prueba de aislamiento a 500 V solo con toda unidad electrónica desconectada y donde el manual lo permite.",
  "load test":
    "Una prueba de carga toma cientos de amperios: pinzas firmes antes de conectar la carga, fuera tras 15 s.",
};

const TOOLS: readonly Phrase[] = [
  ["voltmeter", "voltímetro"],
  ["thermometer", "termómetro"],
  ["hydrometer", "densímetro"],
  ["load tester", "probador de carga"],
  ["ammeter", "amperímetro"],
  ["tachometer", "tacómetro"],
  ["DC clamp meter", "pinza amperimétrica CC"],
  ["back probes", "sondas traseras"],
  ["ohmmeter", "óhmetro"],
  ["insulation tester", "medidor de aislamiento"],
  ["meter with diode check", "medidor con prueba de diodos"],
];

/** How checks are taken, with what, and what is dangerous in them. */
export const CHECK_PHRASES: readonly Phrase[] = [
  ...TOOLS,
  ...CHECKS.flatMap(({ id }) => stepsOf(id).map((step, i): Phrase => [step, CHECK_STEPS[id]?.[i] ?? step])),
  ...(Object.keys(CAUTIONS) as CautionId[]).map((id): Phrase => [CAUTIONS[id], CAUTION_WORDS[id]]),
];
