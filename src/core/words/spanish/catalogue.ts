import { CATALOGUE } from "../../readings/catalogue";
import { SPANISH_LABELS } from "../../readings/spanish-labels";
import type { Phrase } from "../phrasebook";

/** Words of the choices, Spanish, by entry and value. */
export const CHOICES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "battery-type": {
    flooded: "De ácido líquido",
    calcium: "De ácido líquido, calcio",
    agm: "AGM",
    gel: "Gel",
    lithium: "Litio hierro fosfato",
  },
  "cca-standard": { SAE: "SAE", EN: "EN", DIN: "DIN", IEC: "IEC" },
  "regulator-kind": {
    shunt: "Derivación (pone las fases en corto)",
    series: "Serie (abre las fases)",
    field: "Control de campo",
    none: "Sin regulador",
  },
  "bridge-kind": {
    "plain diodes": "Seis diodos simples",
    "parallel path": "Banco superior en paralelo con circuitos de control",
    "parallel path lower": "Banco inferior en paralelo con circuitos de control",
    "controlled upper": "Banco superior controlado, bloquea en ambos sentidos",
    "controlled lower": "Banco inferior controlado, bloquea en ambos sentidos",
    mosfet: "Transistores con diodo interno",
    unknown: "No se sabe",
  },
  "stator-connection": { delta: "Triángulo", wye: "Estrella", unknown: "No se sabe" },
  "alternator-kind": {
    "three-phase": "Trifásico, imanes permanentes",
    "single-phase": "Monofásico, onda completa",
    "half-wave": "Monofásico, media onda",
    "field-excited": "Con devanado de campo",
    other: "Otro, como una dinamo",
  },
  "load-test-recharged": { yes: "Sí", no: "No" },
};

/** Sister readings go by what their labels share. */
const HEADS: readonly Phrase[] = [
  ["Upper, forward", "Superior, directo"],
  ["Upper, reverse", "Superior, inverso"],
  ["Lower, forward", "Inferior, directo"],
  ["Lower, reverse", "Inferior, inverso"],
  ["No-load AC", "CA sin carga"],
  ["No-load AC at second speed", "CA sin carga a segundo régimen"],
  ["AC under load", "CA con carga"],
  ["Winding resistance", "Resistencia de devanados"],
  ["Voltage drop, phase connector", "Caída de tensión, conector de fase"],
  ["Load-test voltage", "Tensión de la prueba de carga"],
];

export const CATALOGUE_PHRASES: readonly Phrase[] = [
  ...HEADS,
  ...CATALOGUE.flatMap((entry): Phrase[] => {
    const label: Phrase = [entry.label, SPANISH_LABELS[entry.id] ?? entry.label];
    if (entry.kind !== "choice") return [label];
    return [
      label,
      ...entry.choices.map(({ value, label: word }): Phrase => [word, CHOICES[entry.id]?.[value] ?? word]),
    ];
  }),
];
