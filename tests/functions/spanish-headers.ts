/** The headers of an audit, as a shop that works in Spanish would write them. */
export const SPANISH_HEADERS = [
  "Pieza",
  "Estado",
  "Probabilidad",
  "Siguiente prueba",
  "Días hasta descargarse",
  "Orden",
  "Dictamen",
];
