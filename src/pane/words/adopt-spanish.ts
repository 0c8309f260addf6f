import type { AdoptWords } from "./adopt-english";

export const ADOPT_SPANISH: AdoptWords = {
  heading: "Su propia tabla",
  about:
    "Seleccione una celda de su tabla, o sus encabezados, y mírela aquí. Los resultados son fórmulas al lado; nada se mueve ni se sobrescribe.",
  look: "Mirar la tabla seleccionada",
  looking: "Mirando la tabla…",
  rows: (count) => (count === 1 ? "1 fila de máquina" : `${count} filas de máquinas`),
  apart: (columns: string) =>
    `Una columna vacía separa de estas otros encabezados: ${columns}. Para incluirlos, seleccione toda la fila y mírela otra vez.`,
  columns: "Qué contienen las columnas",
  others: (count) => (count === 1 ? "1 columna más, omitida" : `${count} columnas más, omitidas`),
  meaning: (column) => `La columna ${column} contiene`,
  leftOut: "Omitir",
  unit: (column) => `Unidad de los números sin unidad en la columna ${column}`,
  unitShort: "en",
  unitRefused: (typed, unit) => `"${typed}" no es una unidad de esta lectura; escriba una como ${unit}.`,
  noHeader: "sin encabezado",
  told: {
    header: "",
    misspelt: "El encabezado se escribe de otra manera: ¿es correcto?",
    around: "Según título o unidad.",
    before: "Como lo indicó antes.",
    doubled: "Una columna anterior contiene esta lectura: omitida.",
    nothing: "",
  },
  unreadable: (bad, all, cell) => `${bad} de ${all} no se pueden leer, la primera ${cell}.`,
  routine: (share) =>
    `Visitas de rutina: el ${Math.round(share * 100)} % de las máquinas está en orden antes de leer nada. Si no, cada una vino con una queja.`,
  place: "Primera columna de los resultados",
  placeHint: "Una letra; en blanco: el primer lugar libre a la derecha.",
  byRow: "Una fórmula en cada fila, como columnas de su tabla.",
  spilled: "Una sola fórmula para todas las filas.",
  will: (range) => `Los resultados irán en ${range}.`,
  add: "Añadir los resultados",
  renew: "Renovar los resultados",
  remove: "Quitar los resultados",
  added: (range) => `Los resultados están en ${range}.`,
  removed: (typed) =>
    `Se quitaron los resultados; ${typed === "" ? "la tabla está como antes." : `lo escrito encima sigue en ${typed}.`}`,
  changed: "La tabla ha cambiado. Así está ahora; no se escribió nada.",
  undo: "Deshacer los quita en un solo paso.",
  renewHint: "¿Filas nuevas o columnas movidas? Mire y renueve.",
};
