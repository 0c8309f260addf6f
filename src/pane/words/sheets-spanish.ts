import { AUDIT_WORDS } from "../../core/words/spanish/audit-words";
import { SHOP_SHEET_PHRASES } from "../../core/words/spanish/shop-sheets";
import { SPANISH_CHOICES } from "../../core/readings/spanish-labels";
import type { SheetLanguage } from "../../workbook/sheet-language";
import type { Words } from "./english";
import { QUOTE_TEMPLATE_PHRASES } from "./quote-sheet-spanish";
import type { Phrase } from "../../core/words/phrasebook";

/** What templates say of their own, Spanish: names of sheets, titles, notes, columns. */
const TEMPLATE_PHRASES: readonly Phrase[] = [
  ["Job", "Trabajo"],
  ["Job sheet: battery will not stay charged", "Hoja de trabajo: la batería no se mantiene cargada"],
  [
    "Verdicts, limits and totals are worked out by the Chargewright add-in. Without it these cells show their last values, or #NAME?; everything else works as it stands.",
    "Dictámenes, límites y totales los calcula el complemento Chargewright. Sin él estas celdas muestran sus últimos valores, o #¿NOMBRE?; todo lo demás funciona tal cual.",
  ],
  [
    "Type readings into the tinted cells as the meter shows them: 12.6, 12,6 V, 350 mA, OL. Leave a cell empty where nothing was read. Follow the machine's service manual and local codes; if unsure, ask a licensed technician.",
    "Escriba las lecturas en las celdas coloreadas como las muestra el medidor: 12.6, 12,6 V, 350 mA, OL. Deje vacía la celda donde no se leyó nada. Siga el manual de servicio de la máquina y las normas locales; en caso de duda, pregunte a un técnico autorizado.",
  ],
  ["Intake", "Recepción"],
  ["Nothing read yet", "Aún no se ha leído nada"],
  [
    "A cell cannot be read as it stands: select the cells that show #VALUE! to see which and why",
    "Una celda no se puede leer tal como está: seleccione las celdas que muestran un error para ver cuál y por qué",
  ],
  ["No fault found", "No se halló ninguna avería"],
  ["No fault found so far", "Por ahora no se halló ninguna avería"],
  ["over 99 %", "más del 99 %"],
  ["under 1 %", "menos del 1 %"],
  ["Next check", "Siguiente prueba"],
  ["What fits the readings", "Qué encaja con las lecturas"],
  ["Why", "Por qué"],
  ["Worked out from the readings; nothing to type here", "Calculado a partir de las lecturas; aquí no se escribe nada"],
  ["Running voltage over engine speed", "Tensión en marcha según el régimen"],
  ["Engine speed, rpm", "Régimen del motor, rpm"],
  ["Volts at the battery posts", "Voltios en los bornes de la batería"],
  ["Healthy, lowest", "Sana, lo más bajo"],
  ["Healthy, likely", "Sana, lo probable"],
  ["Healthy, highest", "Sana, lo más alto"],
  ["Read at idle", "Leído al ralentí"],
  ["Read at test speed", "Leído a régimen de prueba"],
  ["Reading", "Lectura"],
  ["Read", "Leído"],
  ["Unit", "Unidad"],
  ["Low", "Mínimo"],
  ["High", "Máximo"],
  ["Where the limit comes from", "De dónde viene el límite"],
  [
    "Cannot be read as typed: in the row that shows #VALUE!, the first cell of the workings at the right says what to enter",
    "No se puede leer tal como está escrito: en la fila que muestra el error, la primera celda de los cálculos a la derecha dice qué escribir",
  ],
  ["the limit of", "límite:"],
  ["Caution", "Precaución"],
  ["Proof after repair", "Comprobación tras la reparación"],
  [
    "Battery charged and rested, all plugs joined, lights on: read again at the posts, as before, and again what showed the fault.",
    "Batería cargada y en reposo, todos los conectores unidos, luces encendidas: lea otra vez en los bornes, como antes, y otra vez lo que mostró la avería.",
  ],
  ["Repair", "Reparación"],
  [
    "So far in order: the voltage at test speed passes and nothing fails",
    "Por ahora en orden: la tensión a régimen de prueba es conforme y nada falla",
  ],
  ["Not in order: a reading still fails", "Sin resolver: una lectura sigue fallando"],
  [
    "Not shown yet: the voltage at test speed does not pass",
    "Sin comprobar: la tensión a régimen de prueba aún no es conforme",
  ],
  ["Not read yet", "Aún sin leer"],
  ["Machines", "Máquinas"],
  ["Machines: what the plate and the manual say", "Máquinas: lo que dicen la placa y el manual"],
  [
    "One row for each machine. The Job sheet fetches the row whose name stands under Machine there. Leave empty what is not known: a published default is used then, and said.",
    "Una fila por máquina. La hoja de trabajo toma la fila cuyo nombre figura allí como máquina. Deje vacío lo que no se sepa: entonces se usa un valor publicado, y se dice.",
  ],
  ["Reference", "Referencia"],
  ["Reference: parts known to be good", "Referencia: piezas que se sabe que están bien"],
  [
    "One row for each good part that was read with the shop's own meter: a new part before it goes on, or one off a machine that charges. Readings of a suspect part are judged against the rows with its part number; three rows give an interval, one or two a comparison.",
    "Una fila por cada pieza buena leída con el medidor del propio taller: una nueva antes de montarla, o una de una máquina que carga. Las lecturas de una pieza bajo sospecha se juzgan con las filas de su número de pieza; tres filas dan un intervalo, una o dos una comparación.",
  ],
  ["Fleet", "Flota"],
  ["Fleet: one row for each visit", "Flota: una fila por visita"],
  [
    "One row for each visit of a machine, with what was read on it. Leave empty what was not read: it changes nothing, and it is never taken for a zero.",
    "Una fila por cada visita de una máquina, con lo que se leyó en ella. Deje vacío lo que no se leyó: no cambia nada, y nunca se toma por cero.",
  ],
  ["Worked out from the rows; nothing to type here", "Calculado a partir de las filas; aquí no se escribe nada"],
];

/** What the shop's own sheets say beside the words by which they are read. */
const SHOP_PHRASES: readonly Phrase[] = [
  ["Prices", "Precios"],
  ["Prices: what the shop sells", "Precios: lo que vende el taller"],
  [
    "One row for each part. The Quote sheet finds a part by its part number, then by the machines it fits. Enter a price, or cost and margin. What has no price, or two, is named in the quote and never guessed.",
    "Una fila por pieza. El presupuesto busca una pieza por su número y luego por las máquinas a las que sirve. Escriba un precio, o costo y margen. Lo que no tiene precio, o tiene dos, se nombra en el presupuesto y nunca se adivina.",
  ],
  [
    "What the part is for: a repair finds it, and what goes with it, by this word.",
    "Para qué es la pieza: por esta palabra la halla una reparación, con lo que la acompaña.",
  ],
  [
    "Blank counts as new. The conditions of a part are quoted side by side.",
    "En blanco vale como nueva. Las condiciones de una pieza se presupuestan una junto a otra.",
  ],
  ["Machines, parted by commas. Blank: fits any.", "Máquinas, separadas por comas. En blanco: cualquiera."],
  ["What the shop pays.", "Lo que paga el taller."],
  [
    "Selling price before tax. Blank: worked out from cost and margin.",
    "Precio de venta sin impuesto. En blanco: se calcula del costo y el margen.",
  ],
  [
    "Share of the selling price: price = cost / (1 - margin). Enter 0.35 or 35 %.",
    "Parte del precio de venta: precio = costo / (1 - margen). Escriba 0.35 o 35 %.",
  ],
  ["Given back when the old part comes in.", "Se devuelve al entregar la pieza vieja."],
  ["Given back when the old battery comes in.", "Se devuelve al entregar la batería vieja."],
  ["Days until it comes where none is in stock.", "Días hasta que llega si no hay existencias."],
  [
    "Part number that takes its place; that one is quoted.",
    "Número de la pieza que ocupa su lugar; se presupuesta esa.",
  ],
  ["Terms", "Condiciones"],
  ["Terms: rates, tax and rounding", "Condiciones: tarifas, impuestos y redondeo"],
  [
    "What every quote of this shop goes by. A rate that is left empty is named in the quote as missing: an hour is never free by mistake. Ask whoever does the books for the tax rates and how tax is rounded where you are.",
    "Por lo que se rige cada presupuesto de este taller. La tarifa que quede vacía se nombra en el presupuesto como ausente: una hora nunca es gratis por error. Pregunte a quien lleva las cuentas los tipos de impuesto y cómo se redondea donde usted está.",
  ],
  ["Term", "Condición"],
  ["Value", "Valor"],
  ["What it does", "Qué hace"],
  [
    "Per hour, before tax; time counts in hundredths of an hour.",
    "Por hora, sin impuesto; el tiempo cuenta en centésimas de hora.",
  ],
  ["Per hour of testing; blank: the labour rate.", "Por hora de comprobación; en blanco: la tarifa de mano de obra."],
  ["Share of the labour, such as 5 %; blank: none.", "Parte de la mano de obra, como 5 %; en blanco: nada."],
  ["Most that is asked for supplies on one quote.", "Lo más que se pide por consumibles en un presupuesto."],
  ["Share, such as 7 %; also on material and supplies.", "Parte, como 7 %; también sobre material y consumibles."],
  ["Share; also on testing and further checks.", "Parte; también sobre comprobaciones."],
  ["Share; on core charges and deposits.", "Parte; sobre los depósitos."],
  [
    "line: rounded on every line; total: rounded once for each rate.",
    "línea: se redondea en cada línea; total: una vez por cada tipo.",
  ],
  ["Where half a cent goes: up, or to the even cent.", "Adónde va medio céntimo: hacia arriba, o al céntimo par."],
  ["Three letters, such as USD, EUR or MXN.", "Tres letras, como USD, EUR o MXN."],
  ["Decimals of the currency, 0 to 3.", "Decimales de la moneda, de 0 a 3."],
  [
    "The total is rounded to it, such as 0.05; blank: not at all.",
    "El total se redondea a ella, como 0.05; en blanco: no.",
  ],
  ["How long a quote stands.", "Cuánto tiempo vale un presupuesto."],
  [
    "The shop's own hours; blank: {v} by common practice.",
    "Las horas del propio taller; en blanco: {} según la práctica habitual.",
  ],
  ["Blank: {v} by common practice.", "En blanco: {} según la práctica habitual."],
];

/** Further words that sheets show. */
const SHOWN_PHRASES: readonly Phrase[] = [
  ["Output", "Salida"],
  ["Running voltage", "Tensión en marcha"],
  ["Loads", "Consumos"],
  ["OL where the meter shows over-range.", "OL donde el medidor muestra fuera de rango."],
  ["{v} to over-range Ω", "de {v} a fuera de rango, Ω"],
  ["{}: faulty ({}). Regulates too high.", "{}: con avería ({}). Regula demasiado alto."],
];

/** Sheets in Spanish; `words` are the pane's. */
export function spanishSheets(words: Pick<Words, "saidWith" | "state">): SheetLanguage {
  return {
    code: "es",
    say: words.saidWith([
      ...TEMPLATE_PHRASES,
      ...SHOWN_PHRASES,
      ...AUDIT_WORDS,
      ...SHOP_PHRASES,
      ...SHOP_SHEET_PHRASES,
      ...QUOTE_TEMPLATE_PHRASES,
      ...Object.entries(words.state),
    ]),
    choice: (word) => SPANISH_CHOICES[word] ?? word,
  };
}
