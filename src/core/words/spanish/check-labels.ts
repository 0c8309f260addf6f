import { CHECKS } from "../../readings/checks";
import type { Phrase } from "../phrasebook";

/** Names of the checks, Spanish, by their ids. */
export const CHECK_LABELS: Readonly<Record<string, string>> = {
  "battery-at-rest": "Batería en reposo",
  "cell-gravities": "Densidad de las celdas",
  "load-test": "Prueba de carga",
  cranking: "Tensión de arranque",
  "key-off-draw": "Consumo en reposo",
  "running-idle": "Tensión en marcha al ralentí",
  "running-test": "Tensión en marcha a régimen de prueba",
  "no-load-ac": "Salida CA sin carga",
  "loaded-ac": "CA con carga",
  "winding-ohms": "Resistencia de devanados",
  "winding-to-ground": "Devanado a masa",
  insulation: "Aislamiento a masa",
  rotor: "Devanado de campo",
  "diode-check": "Prueba de diodos",
  "output-short": "B+ a masa",
  "case-leakage": "Terminales a la carcasa",
  "voltage-drops": "Caída de tensión, B+ y masa",
  "phase-drops": "Caída de tensión, conectores de fase",
  "key-on-load": "Consumo con contacto dado",
};

export const CHECK_LABEL_PHRASES: readonly Phrase[] = CHECKS.map(({ id, label }): Phrase => [
  label,
  CHECK_LABELS[id] ?? label,
]);
