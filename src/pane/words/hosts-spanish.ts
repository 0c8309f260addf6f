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

/** What Excel, the grid and files refuse, Spanish; names of sheets, tables, cells and files stay as they are. */
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

const FILES: readonly Phrase[] = [
  ['There is already a sheet "{raw}".', "Ya hay una hoja «{}»."],
  ['There is already a table "{raw}".', "Ya hay una tabla «{}»."],
  ["The values do not have the shape of {raw}.", "Los valores no tienen la forma de {}."],
  [
    'The cells {raw} cannot be a table: they overlap the table "{raw}".',
    "Las celdas {} no pueden ser una tabla: pisan la tabla «{}».",
  ],
  ["The cells {raw} cannot be merged: they overlap {raw}.", "Las celdas {} no se pueden combinar: pisan {}."],
  ["The workbook has no sheet yet.", "El libro aún no tiene ninguna hoja."],
  ["The formulas could not be calculated: {raw}", "No se pudieron calcular las fórmulas: {}"],
  [
    '"{raw}" cannot name a sheet: at most 31 characters, none of {raw}',
    "«{}» no puede ser el nombre de una hoja: 31 caracteres como mucho, sin {}",
  ],
  ["{raw} has no sheet with cells; {}", "{} no tiene ninguna hoja con celdas; {}"],
  ["give a workbook with at least one.", "dé un libro que tenga al menos una."],
  [
    "{raw} has {raw} cells, more than the page can show ({raw}); open it in a spreadsheet, or audit its tables on the command line.",
    "{} tiene {} celdas, más de las que la página puede mostrar ({}); ábralo en una hoja de cálculo, o audite sus tablas en la línea de órdenes.",
  ],
  ["{raw} has a part that cannot be read; {}", "{} tiene una parte que no se puede leer; {}"],
  ["{raw} lacks its part {raw}; {}", "A {} le falta su parte {}; {}"],
  [
    "{raw} has its part {raw} in an encoding that is not read here; {}",
    "{} tiene su parte {} en una codificación que aquí no se lee; {}",
  ],
  ["open it in the spreadsheet and save it again.", "ábralo en la hoja de cálculo y guárdelo de nuevo."],
  ["{raw} is empty; {}", "{} está vacío; {}"],
  ["{raw} is not a workbook; {}", "{} no es un libro; {}"],
  ["{raw} is a binary workbook (.xlsb); {}", "{} es un libro binario (.xlsb); {}"],
  ["{raw} is an OpenDocument file; {}", "{} es un archivo OpenDocument; {}"],
  ["{raw} is a zip archive, not a workbook; {}", "{} es un archivo zip, no un libro; {}"],
  [
    "{raw} is a document of another program of the office suite; {}",
    "{} es un documento de otro programa de oficina; {}",
  ],
  ["{raw} is a workbook of the old format (.xls); {}", "{} es un libro del formato antiguo (.xls); {}"],
  ["{raw} is protected by a password to open; {}", "{} está protegido con contraseña; {}"],
  ["{raw} unpacks to more than 1 GB; {}", "{} ocupa más de 1 GB desempaquetado; {}"],
  [
    "{raw} is damaged or cut short: its archive cannot be read to the end; {}",
    "{} está dañado o cortado: no se puede leer hasta el final; {}",
  ],
  ["give a workbook saved as .xlsx.", "dé un libro guardado como .xlsx."],
  ["give a file saved as .xlsx.", "dé un archivo guardado como .xlsx."],
  ["give a smaller workbook.", "dé un libro más pequeño."],
  ["save it as .xlsx and try again.", "guárdelo como .xlsx y pruebe de nuevo."],
  [
    "remove the password in the spreadsheet, save it, and try again.",
    "quite la contraseña en la hoja de cálculo, guárdelo y pruebe de nuevo.",
  ],
  [
    "take a fresh copy, or open it in the spreadsheet and save it again.",
    "tome otra copia, o ábralo en la hoja de cálculo y guárdelo de nuevo.",
  ],
];

/** Things on a sheet, one and several. */
const THINGS = [
  ["chart", "gráfico", "gráficos"],
  ["picture", "imagen", "imágenes"],
  ["pivot table", "tabla dinámica", "tablas dinámicas"],
  ["text box", "cuadro de texto", "cuadros de texto"],
  ["sparkline", "minigráfico", "minigráficos"],
  ["slicer", "segmentación", "segmentaciones"],
  ["note", "nota", "notas"],
  ["link", "vínculo", "vínculos"],
] as const;

/** What of a file is not kept, each after the name of its sheet. */
const LOST: readonly Phrase[] = [
  ...THINGS.flatMap(([one, uno, many]): Phrase[] => [
    [`{raw}: {v} ${one}`, `{}: {} ${uno}`],
    [`{raw}: {v} ${one}s`, `{}: {} ${many}`],
  ]),
  ['{raw}: the looks of the chart "{raw}"', "{}: el aspecto del gráfico «{}»"],
  ["{raw}: the looks of the chart", "{}: el aspecto del gráfico"],
  ["{raw}: that the sheet is hidden", "{}: que la hoja está oculta"],
  ["{raw}: that rows or columns are hidden", "{}: que hay filas o columnas ocultas"],
  ["{raw}: the protection of the sheet", "{}: la protección de la hoja"],
  ["{raw}: the filter", "{}: el filtro"],
  ["the chart sheet {raw}", "la hoja de gráfico {}"],
  ["the macros", "las macros"],
  ["the protection of the workbook", "la protección del libro"],
  [
    "that dates count from 1904: they read four years early here",
    "que las fechas cuentan desde 1904: aquí se leen cuatro años antes",
  ],
  ["{raw}: underlined, struck-through or raised text", "{}: texto subrayado, tachado o elevado"],
  ["{raw}: patterned fills", "{}: rellenos con trama"],
  ["{raw}: turned text", "{}: texto girado"],
  ["{raw}: the rule for what may be typed in {raw}", "{}: la regla de validación de {}"],
  ["{raw}: the conditional format of {raw}", "{}: el formato condicional de {}"],
  [
    "{raw}: {raw} refers to {raw}, which is not in this file; its last value is kept",
    "{}: {} se refiere a {}, que no está en este archivo; se conserva su último valor",
  ],
  [
    "{raw}: {raw} keeps its formula but has no value here: {}",
    "{}: {} conserva su fórmula pero aquí no tiene valor: {}",
  ],
  ["{raw} is not known here", "{} no se conoce aquí"],
  ["{raw} is not in this file", "{} no está en este archivo"],
  [
    "{raw}: the table {raw}, which has no header row; its cells are there",
    "{}: la tabla {}, que no tiene fila de encabezados; sus celdas están",
  ],
  [
    "{raw}: the totals row of the table {raw} is plain cells now",
    "{}: la fila de totales de la tabla {} son ahora celdas corrientes",
  ],
  ["the name {raw} of the sheet {raw}", "el nombre {} de la hoja {}"],
  ["the name {raw}", "el nombre {}"],
];

export const HOST_PHRASES: readonly Phrase[] = [...WORKBOOK, ...EXCEL, ...GRID, ...FILES, ...LOST];
