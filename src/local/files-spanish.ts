import type { Phrase } from "../core/words/phrasebook";

/** Why a file is none that can be read, Spanish; names of files and of their parts stay as they are. */
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

export const FILE_PHRASES: readonly Phrase[] = [...FILES, ...LOST];
