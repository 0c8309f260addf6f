import type { FaultId } from "./faults";

/** Labels of what can be wrong, Spanish: as sheets show them, and as they are found again in their cells. */
export const SPANISH_LABELS: Readonly<Record<FaultId, string>> = {
  healthy: "Sin avería",
  "battery-sulfated": "Batería gastada o sulfatada",
  "battery-shorted-cell": "Celda de batería en corto",
  "parasitic-drain": "Fuga con la llave quitada",
  "excessive-load": "Demasiado consumo",
  "regulator-overcharge": "El regulador sobrecarga",
  "regulator-shunt-stuck-one-phase": "El regulador pone siempre una fase en corto",
  "regulator-shunt-stuck-all-phases": "El regulador pone siempre todas las fases en corto",
  "regulator-series-no-fire": "El regulador nunca dispara",
  "diode-open": "Un dispositivo del rectificador abierto",
  "diode-shorted": "Un dispositivo del rectificador en corto o con fuga",
  "diode-leg-open": "Una rama del rectificador abierta",
  "regulator-leaks": "El regulador-rectificador tiene una fuga interna",
  "stator-turns-shorted": "Espiras en corto en el estátor",
  "stator-phase-open": "Devanado o cable del estátor abierto",
  "stator-ground-leak": "Devanado del estátor a masa",
  "rotor-demagnetised": "Rotor débil",
  "high-resistance-bplus": "Resistencia en el tramo B+",
  "high-resistance-ground": "Resistencia en el tramo de masa",
  "high-resistance-phase": "Resistencia en un conector de fase",
  "main-fuse-blown": "Fusible principal o cable B+ abierto",
  "joint-fails-hot": "Una unión que solo falla en caliente",
};
