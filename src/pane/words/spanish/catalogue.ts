import { CATALOGUE } from "../../../core/readings/catalogue";
import type { Phrase } from "../phrasebook";

const PHASES = ["a", "b", "c"] as const;
const PAIRS = ["ab", "bc", "ca"] as const;
const pairName = (pair: string) => `${pair[0]!.toUpperCase()}–${pair[1]!.toUpperCase()}`;
const each = <T extends string | number>(all: readonly T[], row: (one: T) => readonly [string, string]) =>
  Object.fromEntries(all.map(row));

/** Labels of the catalogue, Spanish, by its ids. */
export const ENTRIES: Readonly<Record<string, string>> = {
  "job-number": "Número de trabajo",
  "machine-name": "Máquina",
  "machine-serial": "Número de serie",
  "visit-date": "Fecha",
  complaint: "Queja",
  technician: "Técnico",
  "regulator-part-number": "Número de pieza del regulador",
  "stator-part-number": "Número de pieza del estátor",
  "battery-type": "Tipo de batería",
  "battery-nominal": "Tensión nominal de la batería",
  "battery-capacity": "Capacidad de la batería",
  "battery-cca": "Corriente de arranque en frío",
  "cca-standard": "Norma del arranque en frío",
  "regulated-min": "Tensión regulada, la más baja",
  "regulated-max": "Tensión regulada, la más alta",
  "rated-output": "Potencia nominal",
  "rated-output-rpm": "Potencia nominal a",
  "no-load-nominal": "CA sin carga, nominal",
  "no-load-nominal-rpm": "CA sin carga, nominal a",
  "no-load-tolerance": "CA sin carga, tolerancia",
  "stator-ohms-min": "Resistencia de devanados, la más baja",
  "stator-ohms-max": "Resistencia de devanados, la más alta",
  "stator-ohms-temp": "Resistencia de devanados, dada a",
  "key-off-limit": "Consumo en reposo, permitido",
  "lights-load": "Consumo con luces encendidas, nominal",
  "regulator-kind": "El regulador trabaja por",
  "bridge-kind": "Circuito interno del regulador-rectificador",
  "stator-connection": "Conexión del estátor",
  "alternator-kind": "Alternador",
  poles: "Polos",
  "battery-temperature": "Temperatura de la batería",
  "hours-rested": "Horas de reposo",
  "rested-voltage": "Tensión en reposo",
  ...each([1, 2, 3, 4, 5, 6], (cell) => [`gravity-${cell}`, `Densidad, celda ${cell}`]),
  "load-test-recharged": "Cargada antes de la prueba de carga",
  "load-test-rested": "Tensión en reposo antes de la prueba de carga",
  "load-test-current": "Corriente de la prueba de carga",
  "load-test-seconds": "Duración de la prueba de carga",
  "load-test-voltage": "Tensión al final de la prueba de carga",
  "cranking-voltage": "Tensión de arranque",
  "key-off-draw": "Consumo en reposo",
  "idle-rpm": "Régimen de ralentí",
  "idle-voltage": "Tensión en marcha al ralentí",
  "test-rpm": "Régimen de prueba",
  "test-voltage": "Tensión en marcha a régimen de prueba",
  "battery-current": "Corriente de batería a régimen de prueba",
  "battery-ripple": "Rizado CA en la batería",
  "bplus-drop": "Caída de tensión, tramo B+",
  "ground-drop": "Caída de tensión, tramo de masa",
  "drop-current": "Corriente durante la prueba de caída",
  ...each(PHASES, (phase) => [`phase-drop-${phase}`, `Caída de tensión, conector de la fase ${phase.toUpperCase()}`]),
  "key-on-load": "Consumo con contacto dado, motor parado",
  "added-load": "Accesorios añadidos",
  "no-load-rpm": "Régimen de la prueba sin carga",
  ...each(PAIRS, (pair) => [`no-load-${pair}`, `CA sin carga, ${pairName(pair)}`]),
  "no-load-rpm-2": "Sin carga, segundo régimen",
  ...each(PAIRS, (pair) => [`no-load-2-${pair}`, `CA sin carga a segundo régimen, ${pairName(pair)}`]),
  ...each(PAIRS, (pair) => [`loaded-${pair}`, `CA con carga, ${pairName(pair)}`]),
  "meter-leads": "Puntas del medidor en corto",
  "meter-ohm-step": "Paso más pequeño del óhmetro",
  "stator-temperature": "Temperatura del estátor",
  ...each(PAIRS, (pair) => [`winding-${pair}`, `Resistencia de devanado, ${pairName(pair)}`]),
  ...each(PHASES, (phase) => [`ground-${phase}`, `Devanado ${phase.toUpperCase()} a masa`]),
  insulation: "Aislamiento a masa con 500 V",
  "insulation-temperature": "Temperatura del devanado en la prueba de aislamiento",
  "field-ohms": "Resistencia del devanado de campo",
  ...each(PHASES, (phase) => [`upper-forward-${phase}`, `Superior, directo, fase ${phase.toUpperCase()}`]),
  ...each(PHASES, (phase) => [`lower-forward-${phase}`, `Inferior, directo, fase ${phase.toUpperCase()}`]),
  ...each(PHASES, (phase) => [`upper-reverse-${phase}`, `Superior, inverso, fase ${phase.toUpperCase()}`]),
  ...each(PHASES, (phase) => [`lower-reverse-${phase}`, `Inferior, inverso, fase ${phase.toUpperCase()}`]),
  "output-to-ground": "B+ a masa, punta roja en B+",
  "output-to-ground-swapped": "B+ a masa, punta roja en masa",
  "case-leakage": "Terminal más bajo a la carcasa",
};

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
    const label: Phrase = [entry.label, ENTRIES[entry.id] ?? entry.label];
    if (entry.kind !== "choice") return [label];
    return [
      label,
      ...entry.choices.map(({ value, label: word }): Phrase => [word, CHOICES[entry.id]?.[value] ?? word]),
    ];
  }),
];
