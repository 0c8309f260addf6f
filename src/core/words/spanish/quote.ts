import type { Phrase } from "../phrasebook";
import { QUOTE_RECORD_PHRASES } from "./quote-record";
import { QUOTE_SHEET_PHRASES } from "./quote-sheet";

/** What a quote's lines and gaps say. */
const LINES: readonly Phrase[] = [
  ["Core charge, back with the old part", "Depósito por la pieza vieja, se devuelve con ella"],
  ["Battery deposit, back with the old battery", "Depósito de la batería, se devuelve con la vieja"],
  ["Testing done", "Comprobaciones hechas"],
  ["Shop supplies", "Consumibles del taller"],
  ["Testing only", "Solo las comprobaciones"],
  ["Further check: {}", "Otra comprobación: {}"],
  ["Replace battery", "Cambiar la batería"],
  ["Replace regulator-rectifier", "Cambiar el regulador-rectificador"],
  ["Replace stator", "Cambiar el estátor"],
  ["Replace rotor", "Cambiar el rotor"],
  ["Renew joint", "Rehacer la unión"],
  ["Replace cable run", "Cambiar el tramo de cable"],
  ["Replace main fuse", "Cambiar el fusible principal"],
  ["Trace drain", "Buscar la fuga de corriente"],
  ["Renew phase connector", "Rehacer el conector de fase"],
  ["Take off added load", "Quitar el consumo añadido"],
  [
    "What is wrong with it is not given, so every way is listed.",
    "No se indica qué avería tiene, así que figuran todas las maneras.",
  ],
  ["in stock", "en existencia"],
  ["{v} in stock", "{} en existencia"],
  ["{v} days to come", "llega en {} días"],
  ["listed for {raw}: check the fit", "listada para {}: compruebe que encaja"],
  ["hours by common practice", "horas por práctica habitual"],
  ["the shop's own hours", "horas del propio taller"],
  ["Warranty: {raw}", "Garantía: {}"],
];

/** Ways by their names, with the condition of the part behind it. */
const WAYS: readonly Phrase[] = [
  ["Renew the joint", "Rehacer la unión"],
  ["Replace the cable run", "Cambiar el tramo de cable"],
  ["Replace the main fuse and find why it blew", "Cambiar el fusible principal y buscar por qué se fundió"],
  ["Renew the phase connector", "Rehacer el conector de fase"],
  ["Trace the drain and stop it", "Buscar la fuga de corriente y cortarla"],
  ["Take off the added load", "Quitar el consumo añadido"],
  ["new", "nueva"],
  ["rebuilt", "reconstruida"],
  ["used", "usada"],
];

/** What a quote as cells says beside its lines. */
const CELLS: readonly Phrase[] = [
  ["Rounding to {v}", "Redondeo a {}"],
  ["Total {raw}", "Total {}"],
  ["Total {raw} without what has no price", "Total {} sin lo que no tiene precio"],
  ["Valid for {v} days.", "Válido {} días."],
  ["quoted here", "presupuestada aquí"],
];

/** Why a part is sold, or is not. */
const REASONS: readonly Phrase[] = [
  // A verdict that a Spanish sheet quotes is said in Spanish already.
  ["No part is quoted: {}", "No se presupuesta ninguna pieza: {}"],
  ["No part is quoted: {raw}", "No se presupuesta ninguna pieza: {}"],
  [
    "The {} is {}, not proven, so it is not sold on this evidence: {}",
    "Aún no está probado ({}: {}), así que con estas lecturas no se vende ninguna pieza: {}",
  ],
  [
    "The {} is {}, not proven, so it is not sold on this evidence: {raw}",
    "Aún no está probado ({}: {}), así que con estas lecturas no se vende ninguna pieza: {}",
  ],
  [
    "{raw} What is wrong with it is not given, so every way is listed.",
    "{} No se indica qué avería tiene, así que figuran todas las maneras.",
  ],
];

const USES: readonly Phrase[] = [
  ["battery", "batería"],
  ["regulator-rectifier", "regulador-rectificador"],
  ["stator", "estátor"],
  ["rotor", "rotor"],
  ["connector", "conector"],
  ["terminal", "terminal"],
  ["cable", "cable"],
  ["fuse", "fusible"],
  ["grease", "grasa"],
  ["gasket", "junta"],
  ["hardware", "tornillería"],
];

const GAPS: readonly Phrase[] = [
  [
    "{raw}: no term of this name is known, so it was not used",
    "{}: no se conoce ninguna condición con ese nombre, así que no se usó",
  ],
  ["labour rate: not set in the terms", "tarifa de mano de obra: falta en las condiciones"],
  [
    "labour or diagnosis rate: not set in the terms",
    "tarifa de mano de obra o de diagnóstico: falta en las condiciones",
  ],
  ["{raw}: no price in the list", "{}: sin precio en la lista"],
  [
    "{raw}: listed for {raw}; check the fit, then name its part number in the terms",
    "{}: figura para {}; compruebe si sirve y ponga su número en las condiciones",
  ],
  ["{raw}: two prices in the list", "{}: dos precios en la lista"],
  ["{raw}: superseded by {raw}, which the list does not sell", "{}: sustituida por {}, que la lista no vende"],
  ["{}: no row in the price list", "{}: ninguna fila en la lista de precios"],
  [
    "{} (part number {raw} or fits {raw}): no row in the price list",
    "{} (número de pieza {} o para {}): ninguna fila en la lista de precios",
  ],
  ["{} (part number {raw}): no row in the price list", "{} (número de pieza {}): ninguna fila en la lista de precios"],
  ["{} (fits {raw}): no row in the price list", "{} (para {}): ninguna fila en la lista de precios"],
  [
    "further check: no check is known that would settle it, so its time is not known either",
    "otra comprobación: no se conoce ninguna que lo resuelva, así que tampoco su tiempo",
  ],
];

/** What is wrong with the shop's own lists. */
const LISTS: readonly Phrase[] = [
  ["{v} more", "{} más"],
  ["Line {v} below the header: no part number.", "Línea {} bajo el encabezado: sin número de pieza."],
  [
    "No line says what its part is for: add a column Use (stator, battery, fuse), or name part numbers in the terms.",
    "Ninguna línea dice para qué es su pieza: añada una columna Uso (estátor, batería, fusible) o ponga números de pieza en las condiciones.",
  ],
  [
    'Line {v} below the header, use: "{raw}" is none of {raw}.',
    "Línea {} bajo el encabezado, «use»: «{}» no es ninguno de {}.",
  ],
  [
    'Line {v} below the header, condition: "{raw}" is none of {raw}.',
    "Línea {} bajo el encabezado, «condition»: «{}» no es ninguno de {}.",
  ],
  [
    'Line {v} below the header, {raw}: "{raw}" is not in {raw}; enter it in that, or set the currency in the terms.',
    "Línea {} bajo el encabezado, {}: «{}» no está en {}; escríbalo en esa moneda o fije la moneda en las condiciones.",
  ],
  [
    'Line {v} below the header, {raw}: "{raw}" is not an amount; enter it like 12.50.',
    "Línea {} bajo el encabezado, «{}»: «{}» no es una cantidad; escríbala como 12,50.",
  ],
  [
    "Line {v} below the header, {raw}: {raw} is below zero.",
    "Línea {} bajo el encabezado, «{}»: {} es menor que cero.",
  ],
  [
    "Line {v} below the header, margin: {raw} is not a share of the price; enter 0.35 or 35 %.",
    "Línea {} bajo el encabezado, «margin»: {} no es una parte del precio; escriba 0,35 o 35 %.",
  ],
  [
    "Lines {v} and {v} below the header: {raw} has two prices; keep one.",
    "Líneas {} y {} bajo el encabezado: {} tiene dos precios; deje uno.",
  ],
  [
    "Prices: the column {raw} is missing; enter a header row with part number and price (or cost and margin).",
    "Precios: falta la columna {}; ponga una fila de encabezados con «part number» y «price» (o «cost» y «margin»).",
  ],
  ['Prices, {raw}: "{raw}" cannot be read; enter {}.', "Precios, «{}»: «{}» no se puede leer; escriba {}."],
  ["amounts without tax", "importes sin impuesto"],
  ["amounts in {raw}, or set the currency in the terms", "importes en {} o fije la moneda en las condiciones"],
  [
    'Terms, {raw}: "{raw}" cannot be read; enter one value only.',
    "Condiciones, «{}»: «{}» no se puede leer; deje un solo valor.",
  ],
  ['Terms, {raw}: "{raw}" cannot be read; enter {raw}.', "Condiciones, «{}»: «{}» no se puede leer; escriba {}."],
];

export const QUOTE_PHRASES: readonly Phrase[] = [
  ...QUOTE_SHEET_PHRASES,
  ...QUOTE_RECORD_PHRASES,
  ...LINES,
  ...WAYS,
  ...CELLS,
  ...REASONS,
  ...USES,
  ...GAPS,
  ...LISTS,
];
