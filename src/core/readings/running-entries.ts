import { quantityOf } from "./entries";
import type { Entry } from "./types";

const idle = quantityOf("running voltage", "running-idle");
const test = quantityOf("running voltage", "running-test");
const drop = quantityOf("wiring", "voltage-drops");
const phaseDrop = quantityOf("wiring", "phase-drops");

/** Running voltage, current and ripple; drops; loads. */
export const RUNNING: readonly Entry[] = [
  idle("idle-rpm", "Idle speed", "rpm", [200, 20000], 0, {
    meter: "tachometer",
    synonyms: ["idle rpm", "rpm at idle", "ralentí rpm", "leerlaufdrehzahl"],
  }),
  idle("idle-voltage", "Running voltage at idle", "V", [0, 40], 2, {
    meter: "dc volts",
    synonyms: [
      "idle voltage",
      "idle volts",
      "voltage at idle",
      "charging voltage idle",
      "voltaje al ralentí",
      "tension au ralenti",
      "spannung im leerlauf",
      "volts at idle",
      "tensión al ralentí",
      "voltaje en ralentí",
      "tension ralenti",
    ],
  }),
  test("test-rpm", "Test speed", "rpm", [200, 20000], 0, {
    meter: "tachometer",
    synonyms: [
      "test rpm",
      "rpm",
      "engine speed",
      "revs",
      "drehzahl",
      "régime",
      "engine rpm",
      "régimen del motor",
      "régime moteur",
      "motordrehzahl",
    ],
  }),
  test("test-voltage", "Running voltage at test speed", "V", [0, 40], 2, {
    meter: "dc volts",
    synonyms: [
      "charging voltage",
      "running voltage",
      "charge volts",
      "volts at test speed",
      "voltage at 5000",
      "voltaje de carga",
      "tension de charge",
      "ladespannung",
      "charging volts",
      "running volts",
      "tensión de carga",
      "tension en marche",
      "voltaje en marcha",
    ],
  }),
  test("battery-current", "Battery current at test speed", "A", [-200, 200], 1, {
    meter: "clamp amps",
    synonyms: [
      "charging current",
      "battery amps",
      "charge current",
      "charge amps",
      "corriente de carga",
      "courant de charge",
      "ladestrom",
    ],
  }),
  test("battery-ripple", "AC ripple at the battery", "V AC", [0, 20], 3, {
    meter: "ac volts",
    synonyms: [
      "ripple",
      "ac ripple",
      "rizado",
      "ondulation",
      "welligkeit",
      "rizado ca",
      "ondulation ac",
      "restwelligkeit",
    ],
  }),
  drop("bplus-drop", "Voltage drop, B+ run", "V", [-1, 20], 3, {
    meter: "dc volts",
    synonyms: [
      "positive drop",
      "b+ drop",
      "voltage drop positive",
      "positive side drop",
      "caída positivo",
      "chute positif",
      "spannungsfall plus",
    ],
  }),
  drop("ground-drop", "Voltage drop, ground run", "V", [-1, 20], 3, {
    meter: "dc volts",
    synonyms: [
      "negative drop",
      "ground side drop",
      "voltage drop ground",
      "earth drop",
      "caída masa",
      "chute masse",
      "spannungsfall masse",
    ],
  }),
  drop("drop-current", "Current during the drop test", "A", [-20, 200], 1, {
    meter: "clamp amps",
    synonyms: ["current in b+ lead", "rectifier output current", "output current"],
  }),
  ...(["a", "b", "c"] as const).map((p) =>
    phaseDrop(`phase-drop-${p}`, `Voltage drop, phase ${p.toUpperCase()} connector`, "V AC", [0, 20], 3, {
      meter: "ac volts",
      synonyms: [`connector drop ${p}`, `phase ${p} drop`],
    }),
  ),
  quantityOf("loads", "key-on-load")("key-on-load", "Key-on load, engine off", "A", [0, 200], 1, {
    meter: "clamp amps",
    synonyms: ["key on load", "load current lights on", "key-on current", "consumo contacto dado"],
  }),
  quantityOf("loads")("added-load", "Accessories added", "W", [0, 5000], 0, {
    synonyms: ["added load", "accessory load", "accessories"],
  }),
];
