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
  ["Job…40", "Hoja de trabajo: la batería no se mantiene cargada"],
  [
    "Verdicts,…164",
    "Dictámenes, límites y totales los calcula el complemento Chargewright. Sin él estas celdas muestran sus últimos valores, o #¿NOMBRE?; todo lo demás funciona tal cual.",
  ],
  [
    "Type…220",
    "Escriba las lecturas en las celdas coloreadas como las muestra el medidor: 12.6, 12,6 V, 350 mA, OL. Deje vacía la celda donde no se leyó nada. Siga el manual de servicio de la máquina y las normas locales; en caso de duda, pregunte a un técnico autorizado.",
  ],
  ["Intake", "Recepción"],
  ["Nothing read yet", "Aún no se ha leído nada"],
  [
    "A cell…91",
    "Una celda no se puede leer tal como está: seleccione las celdas que muestran un error para ver cuál y por qué",
  ],
  ["No fault found", "No se halló ninguna avería"],
  ["No fault found so far", "Por ahora no se halló ninguna avería"],
  ["over 99 %", "más del 99 %"],
  ["under 1 %", "menos del 1 %"],
  ["Next check", "Siguiente prueba"],
  ["What fits the readings", "Qué encaja con las lecturas"],
  ["Why", "Por qué"],
  ["Worked…50", "Calculado a partir de las lecturas; aquí no se escribe nada"],
  ["Running…33", "Tensión en marcha según el régimen"],
  ["Engine speed, rpm", "Régimen del motor, rpm"],
  ["Volts…26", "Voltios en los bornes de la batería"],
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
  ["Where…26", "De dónde viene el límite"],
  [
    "Cannot…118",
    "No se puede leer: en la fila del error, la primera celda de los cálculos a la derecha dice qué escribir",
  ],
  ["the limit of", "límite:"],
  ["Caution", "Precaución"],
  ["Proof after repair", "Comprobación tras la reparación"],
  [
    "Battery…125",
    "Batería cargada y en reposo, todos los conectores unidos, luces encendidas: lea otra vez en los bornes, como antes, y otra vez lo que mostró la avería.",
  ],
  ["Repair", "Reparación"],
  ["So far…67", "Por ahora en orden: la tensión a régimen de prueba es conforme y nada falla"],
  ["Not…35", "Sin resolver: una lectura sigue fallando"],
  ["Not…54", "Sin comprobar: la tensión a régimen de prueba aún no es conforme"],
  ["Not read yet", "Aún sin leer"],
  ["Machines", "Máquinas"],
  ["Machines:…43", "Máquinas: lo que dicen la placa y el manual"],
  [
    "One…169",
    "Una fila por máquina. La hoja de trabajo toma la fila cuyo nombre figura allí como máquina. Deje vacío lo que no se sepa: entonces se usa un valor publicado, y se dice.",
  ],
  ["Reference", "Referencia"],
  ["Reference:…33", "Referencia: piezas que se sabe que están bien"],
  [
    "One…263",
    "Una fila por cada pieza buena leída con el medidor del taller: nueva, o de una máquina que carga. Las piezas bajo sospecha se juzgan con las filas de su número; tres filas dan un intervalo, una o dos una comparación.",
  ],
  ["Fleet", "Flota"],
  ["Fleet:…29", "Flota: una fila por visita"],
  [
    "One…358",
    "Una fila por cada visita de una máquina, con lo que se leyó en ella. Deje vacío lo que no se leyó: no cambia nada, y nunca se toma por cero. Las visitas cuentan como de rutina: nueve máquinas de diez están en orden antes de leer nada. Si vinieron con una queja, o para otra proporción, mire la tabla en el panel (Su tabla) y renueve los resultados.",
  ],
  ["Worked…46", "Calculado a partir de las filas; aquí no se escribe nada"],
];

/** What the shop's own sheets say beside the words by which they are read. */
const SHOP_PHRASES: readonly Phrase[] = [
  ["Prices", "Precios"],
  ["Prices:…27", "Precios: lo que vende el taller"],
  [
    "One…204",
    "Una fila por pieza. El presupuesto busca una pieza por su número y luego por las máquinas a las que sirve. Escriba un precio, o costo y margen. Lo que no tiene precio, o tiene dos, se nombra y nunca se adivina.",
  ],
  ["What…77", "Para qué es: por esta palabra la halla una reparación, con lo que la acompaña."],
  ["Blank…70", "En blanco: nueva. Las condiciones de una pieza se presupuestan juntas."],
  ["Machines,…44", "Máquinas, separadas por comas. En blanco: cualquiera."],
  ["What the shop pays.", "Lo que paga el taller."],
  ["Selling…65", "Precio de venta sin impuesto. En blanco: se calcula del costo y el margen."],
  ["Share…76", "Parte del precio de venta: precio = costo / (1 - margen). Escriba 0,35 o 35 %."],
  ["Given…38", "Se devuelve al entregar la pieza vieja."],
  ["Given…41", "Se devuelve al entregar la batería vieja."],
  ["Days…43", "Días hasta que llega si no hay existencias."],
  ["Part…53", "Número de la pieza que ocupa su lugar; se presupuesta esa."],
  ["Terms", "Condiciones"],
  ["Terms:…30", "Condiciones: tarifas, impuestos y redondeo"],
  [
    "What…215",
    "Por lo que se rige cada presupuesto. La tarifa vacía se nombra como ausente: una hora nunca es gratis por error. Pregunte a su contable los tipos de impuesto y cómo se redondea.",
  ],
  ["Term", "Condición"],
  ["Value", "Valor"],
  ["What it does", "Qué hace"],
  ["Per…59", "Por hora, sin impuesto; el tiempo cuenta en centésimas de hora."],
  ["Per…44", "Por hora de comprobación; en blanco: la tarifa de mano de obra."],
  ["Share…46", "Parte de la mano de obra, como 5 %; en blanco: nada."],
  ["Most…45", "Lo más que se pide por consumibles en un presupuesto."],
  ["Share,…50", "Parte, como 7 %; también sobre material y consumibles."],
  ["Share;…42", "Parte; también sobre comprobaciones."],
  ["Share;…36", "Parte; sobre los depósitos."],
  ["line:…63", "línea: se redondea en cada línea; total: una vez por cada tipo."],
  ["Where…48", "Adónde va medio céntimo: hacia arriba, o al céntimo par."],
  ["Three…39", "Tres letras, como USD, EUR o MXN."],
  ["Decimals…33", "Decimales de la moneda, de 0 a 3."],
  ["The…60", "El total se redondea a ella, como 0,05; en blanco: no."],
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

const SAID_ON_SHEETS: readonly Phrase[] = [
  ...TEMPLATE_PHRASES,
  ...SHOWN_PHRASES,
  ...AUDIT_WORDS,
  ...SHOP_PHRASES,
  ...SHOP_SHEET_PHRASES,
  ...QUOTE_TEMPLATE_PHRASES,
];

/**
 * Long texts by how they begin and how many letters they have: all of them stand in the templates already, and would
 * be fetched twice. A test holds them whole, so that none is changed in English alone.
 */
const LONG: ReadonlyMap<string, string> = new Map(SAID_ON_SHEETS);
const BEGINNINGS = [...LONG.keys()].filter((english) => /…\d+$/u.test(english)).map((english) => english.split("…"));

function long(text: string): string | undefined {
  const found = BEGINNINGS.find(([begins, letters]) => text.length === Number(letters) && text.startsWith(begins!));
  return found && LONG.get(found.join("…"));
}

/** Sheets in Spanish; `words` are the pane's. */
export function spanishSheets(words: Pick<Words, "saidWith" | "state">): SheetLanguage {
  const said = words.saidWith([...SAID_ON_SHEETS, ...Object.entries(words.state)]);
  return {
    code: "es",
    say: (text) => long(text) ?? said(text),
    choice: (word) => SPANISH_CHOICES[word] ?? word,
  };
}
