import { PAIRS, PHASES, quantityOf } from "./entries";
import type { Entry } from "./types";

const noLoad = quantityOf("output", "no-load-ac");
const ohms = quantityOf("output", "winding-ohms");
const pairName = (pair: string) => `${pair[0]!.toUpperCase()}–${pair[1]!.toUpperCase()}`;

/** Output of the stator: AC, windings, insulation. */
export const STATOR: readonly Entry[] = [
  noLoad("no-load-rpm", "No-load test speed", "rpm", [200, 20000], 0, {
    meter: "tachometer",
    synonyms: ["no-load rpm", "rpm no load"],
  }),
  ...PAIRS.map((pair) =>
    noLoad(`no-load-${pair}`, `No-load AC, ${pairName(pair)}`, "V AC", [0, 500], 1, {
      meter: "ac volts",
      synonyms: [
        `no-load ac ${pair}`,
        `stator ac ${pair}`,
        `ac ${pair}`,
        `open-circuit ac ${pair}`,
        `no-load output ${pair}`,
        `ca sin carga ${pair}`,
        `ac à vide ${pair}`,
        `leerlauf ac ${pair}`,
      ],
    }),
  ),
  noLoad("no-load-rpm-2", "No-load, second speed", "rpm", [200, 20000], 0, { meter: "tachometer" }),
  ...PAIRS.map((pair) =>
    noLoad(`no-load-2-${pair}`, `No-load AC at second speed, ${pairName(pair)}`, "V AC", [0, 500], 1, {
      meter: "ac volts",
    }),
  ),
  ...PAIRS.map((pair) =>
    quantityOf("output", "loaded-ac")(`loaded-${pair}`, `AC under load, ${pairName(pair)}`, "V AC", [0, 500], 1, {
      meter: "ac volts",
      synonyms: [
        `loaded ac ${pair}`,
        `ac under load ${pair}`,
        `ac connected ${pair}`,
        `ca con carga ${pair}`,
        `ac en charge ${pair}`,
        `ac unter last ${pair}`,
      ],
    }),
  ),
  ohms("meter-leads", "Meter leads shorted", "Ω", [0, 20], 2, {
    meter: "ohms",
    synonyms: ["shorted leads", "lead resistance", "leads", "zero ohms"],
  }),
  ohms("meter-ohm-step", "Smallest step of the ohmmeter", "Ω", [0.0001, 10], 3, {
    synonyms: ["ohmmeter resolution", "meter resolution"],
  }),
  ohms("stator-temperature", "Stator temperature", "°C", [-40, 250], 0, {
    meter: "temperature",
    synonyms: ["winding temperature", "stator temp"],
  }),
  ...PAIRS.map((pair) =>
    ohms(`winding-${pair}`, `Winding resistance, ${pairName(pair)}`, "Ω", [0, 1e9], 2, {
      meter: "ohms",
      overload: true,
      synonyms: [
        `stator ohms ${pair}`,
        `winding ohms ${pair}`,
        `resistance ${pair}`,
        `ohms ${pair}`,
        `line-to-line resistance ${pair}`,
        `resistencia ${pair}`,
        `widerstand ${pair}`,
      ],
    }),
  ),
  ...PHASES.map((phase) =>
    quantityOf("output", "winding-to-ground")(
      `ground-${phase}`,
      `Winding ${phase.toUpperCase()} to ground`,
      "Ω",
      [0, 1e12],
      0,
      {
        meter: "ohms",
        overload: true,
        synonyms: [
          `stator to ground ${phase}`,
          `${phase} to ground`,
          ...(phase === "a" ? ["stator to ground", "winding to ground", "ground check"] : []),
        ],
      },
    ),
  ),
  quantityOf("output", "insulation")("insulation", "Insulation to ground at 500 V", "MΩ", [0, 1e6], 1, {
    meter: "megohms",
    overload: true,
    synonyms: ["insulation resistance", "insulation", "megohms", "aislamiento", "isolement", "isolationswiderstand"],
  }),
  quantityOf("output", "insulation")(
    "insulation-temperature",
    "Winding temperature at the insulation check",
    "°C",
    [-40, 250],
    0,
    { meter: "temperature" },
  ),
  quantityOf("output", "rotor")("field-ohms", "Field winding resistance", "Ω", [0, 1e9], 2, {
    meter: "ohms",
    overload: true,
    synonyms: ["rotor resistance", "field coil resistance", "rotor ohms"],
  }),
];
