import type { Phrase } from "../../core/words/phrasebook";

/** What any workbook refuses, and what stays as it was. */
const WORKBOOK: readonly Phrase[] = [
  ["Nothing was written.", "No se escribió nada."],
  ["Nothing was changed.", "No se cambió nada."],
  ['There is no sheet "{raw}" in this workbook.', "En este libro no hay hoja «{}»."],
  ['There is no sheet "{raw}".', "No hay hoja «{}»."],
  ['There is a sheet "{raw}" already.', "Ya hay una hoja «{}»."],
  ["Rename one of them and try again.", "Cambie el nombre de una y pruebe de nuevo."],
  [
    'There already is a sheet "{raw}". Nothing was written; choose another name.',
    "Ya hay una hoja «{}». No se escribió nada; elija otro nombre.",
  ],
  [
    'There already is a table "{raw}". Nothing was written; choose another name.',
    "Ya hay una tabla «{}». No se escribió nada; elija otro nombre.",
  ],
  ['There is no table "{raw}".', "No hay tabla «{}»."],
  ['The table "{raw}" is beside "{raw}".', "La tabla «{}» está junto a «{}»."],
  ['The table "{raw}" is in the way at {raw}.', "La tabla «{}» estorba en {}."],
  [
    "Merged cells are in the way: {raw}. Nothing was written; unmerge them first.",
    "Unas celdas combinadas estorban: {}. No se escribió nada; sepárelas antes.",
  ],
  [
    'Merged cells are in the way of the sheet "{raw}": {raw}. Nothing was written; unmerge them, or choose another sheet.',
    "Unas celdas combinadas estorban a la hoja «{}»: {}. No se escribió nada; sepárelas o elija otra hoja.",
  ],
  [
    'The sheet "{raw}" already holds something in {raw}. Nothing was written; clear it, or choose another sheet.',
    "La hoja «{}» ya contiene algo en {}. No se escribió nada; bórrelo o elija otra hoja.",
  ],
  [
    'The sheet "{raw}" already holds something in {raw}. Nothing was written; clear them, or choose another sheet.',
    "La hoja «{}» ya contiene algo en {}. No se escribió nada; bórrelo o elija otra hoja.",
  ],
  ["The workbook is not open on the shop's computer.", "El libro no está abierto en el ordenador del taller."],
  ["Open the page there, then try again.", "Abra allí la página y pruebe de nuevo."],
  ["This cannot be asked from a phone.", "Esto no se puede pedir desde un teléfono."],
];

/** What Excel and the grid refuse, Spanish; names of sheets, tables and cells stay as they are. */
const EXCEL: readonly Phrase[] = [
  ["Reading the sheets: {}", "Al leer las hojas: {}"],
  ["Reading the selection: {}", "Al leer la selección: {}"],
  ["Writing to the workbook: {}", "Al escribir en el libro: {}"],
  ['Reading "{raw}": {}', "Al leer «{}»: {}"],
  ["Reading {raw}: {}", "Al leer {}: {}"],
  ['Going to "{raw}": {}', "Al ir a «{}»: {}"],
  ["Going to {raw}: {}", "Al ir a {}: {}"],
  [
    "the sheet or range is not there; it may have been renamed or deleted.",
    "la hoja o el rango no está; puede que le hayan cambiado el nombre o la hayan borrado.",
  ],
  [
    "a cell is being edited. Press Enter or Esc in the sheet and try again.",
    "se está editando una celda. Pulse Entrar o Esc en la hoja y pruebe de nuevo.",
  ],
  [
    "the sheet or the workbook is protected. Take off the protection (Review tab) and try again.",
    "la hoja o el libro está protegido. Quite la protección (ficha Revisar) y pruebe de nuevo.",
  ],
  [
    "this version of Excel cannot do it. Excel for Microsoft 365, 2021 or later can.",
    "esta versión de Excel no puede. Excel para Microsoft 365, 2021 o posterior sí.",
  ],
  [
    "the range is larger than Excel moves at once. Choose fewer rows.",
    "el rango es mayor de lo que Excel mueve de una vez. Elija menos filas.",
  ],
  ["Excel refused ({raw}).", "Excel lo rechazó ({})."],
  ["Excel refused.", "Excel lo rechazó."],
  [
    "Excel then refused to put the cells back: look over the sheet, and use Undo (Ctrl+Z) before going on.",
    "Excel se negó después a reponer las celdas: repase la hoja y use Deshacer (Ctrl+Z) antes de seguir.",
  ],
  [
    "Excel does not tell of edits in the sheet; close the pane and open it again to see them.",
    "Excel no avisa de los cambios en la hoja; cierre el panel y ábralo de nuevo para verlos.",
  ],
  [
    'The sheet "{raw}" is protected. Take off the protection (Review tab, Unprotect Sheet) and try again.',
    "La hoja «{}» está protegida. Quite la protección (ficha Revisar, Desproteger hoja) y pruebe de nuevo.",
  ],
  ["{raw} is merged already.", "{} ya está combinada."],
  ["{raw} is merged, so values would be lost.", "{} está combinada, y se perderían valores."],
  ["Unmerge it or choose another place.", "Sepárela o elija otro sitio."],
  ["Merging {raw} would lose what its cells hold.", "Al combinar {} se perdería lo que contienen sus celdas."],
  ["Choose another place.", "Elija otro sitio."],
  ["Some cells of {raw} have rules for what may be entered.", "Algunas celdas de {} tienen reglas de validación."],
  [
    "Clear them (Data, Data Validation) or choose another place.",
    "Bórrelas (Datos, Validación de datos) o elija otro sitio.",
  ],
  ["A table cannot hold the merged cells {raw}.", "Una tabla no puede contener las celdas combinadas {}."],
  ["Unmerge them and try again.", "Sepárelas y pruebe de nuevo."],
  ["The name {raw} is taken in this workbook.", "El nombre {} ya se usa en este libro."],
  [
    "Rename that table or range (Formulas, Name Manager) and try again.",
    "Cambie el nombre de esa tabla o rango (Fórmulas, Administrador de nombres) y pruebe de nuevo.",
  ],
  ["{raw} touches the table {raw}.", "{} toca la tabla {}."],
  ["There is no table {raw} at {raw}.", "No hay tabla {} en {}."],
  ["The table {raw} stands beside {raw}.", "La tabla {} está junto a {}."],
  ["{raw} is filled by the formula in {raw}.", "{} se llena con la fórmula de {}."],
  ["Choose another place or clear that formula.", "Elija otro sitio o borre esa fórmula."],
  ["The result would spill over {raw}, where cells are filled.", "El resultado ocuparía {}, donde hay celdas llenas."],
  ["Clear them or choose another place.", "Bórrelas o elija otro sitio."],
  ["The values for {raw} have another shape than their place.", "Los valores para {} no tienen la forma de su sitio."],
];

const GRID: readonly Phrase[] = [
  ["The grid could not make a change ({raw}).", "La cuadrícula no pudo hacer un cambio ({})."],
  ["The grid refused a change ({raw}).", "La cuadrícula rechazó un cambio ({})."],
  ["Nothing was written; please report it.", "No se escribió nada; comuníquelo, por favor."],
  ["The values for {raw} do not have its shape.", "Los valores para {} no tienen su forma."],
];

export const HOST_PHRASES: readonly Phrase[] = [...WORKBOOK, ...EXCEL, ...GRID];
