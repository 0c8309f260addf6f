import { choiceOf, quantityOf } from "./entries";
import type { Entry } from "./types";

const machine = quantityOf("machine");

/** Machine data: what the plate, the manual or the shop's own record says of a healthy machine. */
export const MACHINE: readonly Entry[] = [
  choiceOf(
    "machine",
    "battery-type",
    "Battery type",
    [
      {
        value: "flooded",
        label: "Flooded",
        synonyms: [
          "wet",
          "lead-acid",
          "lead acid",
          "lead",
          "plomb",
          "plomo",
          "blei",
          "conventional",
          "ácido",
          "inundada",
          "ouverte",
          "nass",
          "nassbatterie",
        ],
      },
      {
        value: "calcium",
        label: "Calcium flooded",
        synonyms: ["calcium", "sealed calcium", "ca/ca", "maintenance free"],
      },
      { value: "agm", label: "AGM", synonyms: ["absorbed glass mat", "vrla", "sla", "vlies"] },
      { value: "gel", label: "Gel", synonyms: ["gel cell"] },
      {
        value: "lithium",
        label: "Lithium iron phosphate",
        synonyms: ["lifepo4", "lfp", "li", "lithium ion", "li-ion", "litio"],
      },
    ],
    {
      synonyms: [
        "type of battery",
        "battery chemistry",
        "tipo de batería",
        "type de batterie",
        "batterietyp",
        "batterieart",
      ],
    },
  ),
  machine("battery-nominal", "Battery nominal voltage", "V", [6, 12], 0, {
    synonyms: ["nominal voltage", "system voltage"],
  }),
  machine("battery-capacity", "Battery capacity", "Ah", [0.5, 300], 1, {
    synonyms: [
      "capacity",
      "ah",
      "rated capacity",
      "capacidad",
      "capacité",
      "kapazität",
      "capacidad de la batería",
      "capacité de la batterie",
      "batteriekapazität",
    ],
  }),
  machine("battery-cca", "Cold cranking amps", "A", [20, 2000], 0, {
    synonyms: [
      "cca",
      "cold cranking current",
      "cranking amps",
      "arranque en frío",
      "kaltstartstrom",
      "corriente de arranque en frío",
      "courant de démarrage à froid",
      "kälteprüfstrom",
    ],
  }),
  choiceOf(
    "machine",
    "cca-standard",
    "Cold cranking standard",
    [
      { value: "SAE", label: "SAE", synonyms: ["sae j537", "bci"] },
      { value: "EN", label: "EN", synonyms: ["en 50342"] },
      { value: "DIN", label: "DIN" },
      { value: "IEC", label: "IEC" },
    ],
    { synonyms: ["cca standard"] },
  ),
  machine("regulated-min", "Regulated voltage, lowest", "V", [5, 16], 1, {
    synonyms: ["regulated voltage min", "charging voltage min", "min regulated voltage"],
  }),
  machine("regulated-max", "Regulated voltage, highest", "V", [5, 18], 1, {
    synonyms: ["regulated voltage max", "charging voltage max", "max regulated voltage"],
  }),
  machine("rated-output", "Rated output", "W", [10, 5000], 0, {
    synonyms: [
      "alternator output",
      "stator output",
      "rated watts",
      "output watts",
      "potencia",
      "puissance",
      "leistung",
    ],
  }),
  machine("rated-output-rpm", "Rated output at", "rpm", [500, 15000], 0, {
    synonyms: ["rated output rpm", "rated rpm"],
  }),
  machine("no-load-nominal", "No-load AC, nominal", "V AC", [2, 400], 0, {
    synonyms: ["nominal no-load ac", "no load ac spec", "no-load ac output spec"],
  }),
  machine("no-load-nominal-rpm", "No-load AC, nominal at", "rpm", [500, 15000], 0, {
    synonyms: ["no-load ac spec rpm"],
  }),
  machine("no-load-tolerance", "No-load AC, tolerance", "%", [0, 60], 0, { synonyms: ["no-load ac tolerance"] }),
  machine("stator-ohms-min", "Winding resistance, lowest", "Ω", [0, 100], 2, {
    synonyms: ["stator resistance min", "winding resistance min"],
  }),
  machine("stator-ohms-max", "Winding resistance, highest", "Ω", [0, 100], 2, {
    synonyms: ["stator resistance max", "winding resistance max"],
  }),
  machine("stator-ohms-temp", "Winding resistance, stated at", "°C", [-20, 150], 0, {
    synonyms: ["stator resistance temperature"],
  }),
  machine("key-off-limit", "Key-off draw, allowed", "mA", [0, 1000], 1, {
    synonyms: ["max key-off draw", "allowed draw", "key-off draw limit", "key off draw max"],
  }),
  machine("lights-load", "Load with lights on, nominal", "A", [0, 150], 1, {
    synonyms: ["nominal load", "lights-on load", "electrical load nominal"],
  }),
  choiceOf(
    "machine",
    "regulator-kind",
    "Regulator works by",
    [
      {
        value: "shunt",
        label: "Shunt (shorts the phases)",
        synonyms: ["shunt scr", "shunt type", "shorting", "phase-shorting", "shunt mosfet"],
      },
      {
        value: "series",
        label: "Series (opens the phases)",
        synonyms: ["series scr", "series type", "phase-controlled", "phase-cut"],
      },
      { value: "field", label: "Field control", synonyms: ["field-controlled", "field excited"] },
      { value: "none", label: "No regulator", synonyms: ["unregulated"] },
    ],
    { synonyms: ["regulator type", "type of regulator"] },
  ),
  choiceOf(
    "machine",
    "bridge-kind",
    "Circuit inside the regulator-rectifier",
    [
      { value: "plain diodes", label: "Six plain diodes", synonyms: ["plain", "diodes", "plain diode"] },
      {
        value: "parallel path",
        label: "Upper bank in parallel with control circuits",
        synonyms: ["parallel", "gate parallel", "upper bank parallel", "parallel upper bank"],
      },
      {
        value: "parallel path lower",
        label: "Lower bank in parallel with control circuits",
        synonyms: ["lower bank parallel", "parallel lower bank"],
      },
      {
        value: "controlled upper",
        label: "Upper bank controlled, blocks both ways",
        synonyms: ["controlled", "scr upper", "thyristor upper"],
      },
      {
        value: "controlled lower",
        label: "Lower bank controlled, blocks both ways",
        synonyms: ["scr lower", "thyristor lower"],
      },
      {
        value: "mosfet",
        label: "Transistors with body diodes",
        synonyms: ["mosfet body diodes", "body diodes", "fet"],
      },
      { value: "unknown", label: "Not known", synonyms: ["?", "not known", "n/a"] },
    ],
    { synonyms: ["circuit kind", "bridge type", "circuit inside"] },
  ),
  choiceOf(
    "machine",
    "stator-connection",
    "Stator connection",
    [
      { value: "delta", label: "Delta", synonyms: ["Δ", "d", "triangle", "triángulo", "dreieck"] },
      { value: "wye", label: "Wye (star)", synonyms: ["star", "y", "estrella", "étoile", "stern"] },
      { value: "unknown", label: "Not known", synonyms: ["?"] },
    ],
    { synonyms: ["winding connection"] },
  ),
  choiceOf(
    "machine",
    "alternator-kind",
    "Alternator",
    [
      {
        value: "three-phase",
        label: "Three-phase, permanent magnets",
        synonyms: ["3-phase", "three phase", "3 phase"],
      },
      {
        value: "single-phase",
        label: "Single-phase, full wave",
        synonyms: ["1-phase", "single phase", "single-phase full wave"],
      },
      { value: "half-wave", label: "Single-phase, half wave", synonyms: ["single-phase half wave", "half wave"] },
      { value: "field-excited", label: "Field-excited", synonyms: ["wound field", "automotive"] },
      {
        value: "other",
        label: "Other, such as a DC generator",
        synonyms: ["dc generator", "dynamo", "dinamo", "génératrice", "gleichstromgenerator"],
      },
    ],
    { synonyms: ["alternator type", "type of alternator"] },
  ),
  machine("poles", "Poles", "1", [2, 60], 0, {
    synonyms: ["number of poles", "magnet poles", "polos", "pôles", "pole"],
  }),
];
