import { choiceOf, quantityOf, YES_NO } from "./entries";
import type { Entry } from "./types";

const rest = quantityOf("battery", "battery-at-rest");
const load = quantityOf("battery", "load-test");

/** Battery, cranking and key-off draw. */
export const BATTERY: readonly Entry[] = [
  rest("battery-temperature", "Battery temperature", "°C", [-60, 90], 0, {
    meter: "temperature",
    synonyms: [
      "temperature",
      "battery temp",
      "electrolyte temperature",
      "temp",
      "temperatura",
      "température",
      "temperatur",
      "temperatura batería",
      "temperatura de la batería",
      "température batterie",
      "température de la batterie",
      "batterietemperatur",
    ],
  }),
  rest("hours-rested", "Hours rested", "h", [0, 10000], 1, {
    meter: "clock",
    synonyms: ["rest time", "rested for", "horas de reposo", "heures de repos", "ruhezeit"],
  }),
  rest("rested-voltage", "Rested voltage", "V", [0, 20], 2, {
    meter: "dc volts",
    synonyms: [
      "open-circuit voltage",
      "ocv",
      "open circuit voltage",
      "resting voltage",
      "battery voltage",
      "rest volts",
      "standing voltage",
      "voltaje en reposo",
      "tensión en reposo",
      "tension au repos",
      "ruhespannung",
      "battery volts",
      "volts at rest",
      "rested volts",
      "engine off voltage",
      "static voltage",
      "resting volts",
      "voltaje de batería",
      "tensión de batería",
      "tension batterie",
      "tension de la batterie",
      "batteriespannung",
    ],
  }),
  ...[1, 2, 3, 4, 5, 6].map((cell) =>
    quantityOf("battery", "cell-gravities")(`gravity-${cell}`, `Specific gravity, cell ${cell}`, "SG", [0.9, 1.4], 3, {
      meter: "hydrometer",
      synonyms: [
        `cell ${cell}`,
        `sg ${cell}`,
        `gravity cell ${cell}`,
        `sg cell ${cell}`,
        `densidad celda ${cell}`,
        `densité élément ${cell}`,
        `säuredichte zelle ${cell}`,
      ],
    }),
  ),
  choiceOf("battery", "load-test-recharged", "Charged before the load test", YES_NO, {
    check: "load-test",
    synonyms: ["recharged before load test", "charged before test"],
  }),
  load("load-test-rested", "Rested voltage before the load test", "V", [0, 20], 2, {
    meter: "dc volts",
    synonyms: ["voltage before load test"],
  }),
  load("load-test-current", "Load-test current", "A", [1, 2000], 0, {
    meter: "clamp amps",
    synonyms: ["load current", "load test a", "test current", "corriente de prueba", "prüfstrom"],
  }),
  load("load-test-seconds", "Load-test time", "s", [1, 120], 0, {
    meter: "clock",
    synonyms: ["load test duration", "seconds under load", "duration"],
  }),
  load("load-test-voltage", "Voltage at the end of the load test", "V", [0, 20], 2, {
    meter: "dc volts",
    synonyms: [
      "load test voltage",
      "volts under load",
      "voltage under load",
      "load volts",
      "voltaje bajo carga",
      "tension sous charge",
      "spannung unter last",
    ],
  }),
  quantityOf("battery", "cranking")("cranking-voltage", "Cranking voltage", "V", [0, 20], 2, {
    meter: "dc volts",
    synonyms: [
      "voltage while cranking",
      "crank volts",
      "cranking volts",
      "starting voltage",
      "voltaje de arranque",
      "tension au démarrage",
      "startspannung",
      "volts cranking",
      "tensión de arranque",
      "tension de démarrage",
      "anlassspannung",
    ],
  }),
  quantityOf("key-off draw", "key-off-draw")("key-off-draw", "Key-off draw", "mA", [0, 30000], 1, {
    meter: "milliamps",
    synonyms: [
      "parasitic draw",
      "parasitic drain",
      "standby current",
      "drain",
      "consumo en reposo",
      "consommation contact coupé",
      "ruhestrom",
      "key-off current",
      "key-off drain",
      "standby draw",
      "parasitic load",
      "dark current",
      "consumo apagado",
      "corriente de fuga",
      "consumo parásito",
      "courant de fuite",
      "courant de repos",
      "ruhestromaufnahme",
    ],
  }),
];
