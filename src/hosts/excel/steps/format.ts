import type { Area, CellFormat } from "../../../workbook/port";
import { bands, type Prepared, type Scope } from "./scope";

/** Colour of thin lines between cells. */
const LINE = "#BFC8CC";
const HORIZONTAL = { left: "Left", center: "Center", right: "Right" } as const;
const VERTICAL = { top: "Top", middle: "Center", bottom: "Bottom" } as const;

/** Cells whose looks one request may bring: each cell's looks are a small object. */
const MOST_LOOKS = 3_000;

/** Looks of cells; what a cell looked like before is kept cell by cell. */
export function prepareFormat(scope: Scope, at: Area, format: CellFormat): Prepared[] {
  return bands(at, MOST_LOOKS).map((band) => {
    const carryOut = () => applyFormat(scope.range(band), band, format);
    const weight = band.rows * band.columns * 10;
    if (scope.isNew(band.sheet)) return { weight, carryOut };
    const looks = keepLooks(scope, band);
    scope.askProtection(band.sheet);
    return { weight, carryOut, refusal: () => scope.protectedFault(band.sheet), putBack: looks };
  });
}

/** Queues reading what cells look like; the answer puts those looks back. */
export function keepLooks(scope: Scope, at: Area): () => void {
  const range = scope.range(at);
  range.load("numberFormat");
  const side = { color: true, style: true, weight: true };
  const looks = range.getCellProperties({
    format: {
      font: { bold: true, italic: true, size: true, color: true },
      fill: { color: true, pattern: true },
      borders: side,
      horizontalAlignment: true,
      verticalAlignment: true,
      wrapText: true,
    },
  });
  return () => {
    const again = scope.range(at);
    again.numberFormat = range.numberFormat;
    again.setCellProperties(looks.value.map((row) => row.map(({ format }) => settable(format ?? {}))));
  };
}

/** A cell without fill reports white: only its pattern tells, and setting white would paint it. */
function settable(format: Excel.CellPropertiesFormat): Excel.SettableCellProperties {
  const { fill, ...rest } = format;
  return { format: { ...rest, ...(fill ? { fill: fill.pattern === "None" ? { pattern: "None" } : fill } : {}) } };
}

function applyFormat(range: Excel.Range, at: Area, format: CellFormat): void {
  const { font, fill } = range.format;
  if (format.bold !== undefined) font.bold = format.bold;
  if (format.italic !== undefined) font.italic = format.italic;
  if (format.size !== undefined) font.size = format.size;
  if (format.colour !== undefined) font.color = `#${format.colour}`;
  if (format.fill !== undefined) fill.color = `#${format.fill}`;
  if (format.align !== undefined) range.format.horizontalAlignment = HORIZONTAL[format.align];
  if (format.vertical !== undefined) range.format.verticalAlignment = VERTICAL[format.vertical];
  if (format.wrap !== undefined) range.format.wrapText = format.wrap;
  if (format.number !== undefined) {
    range.numberFormat = Array.from({ length: at.rows }, () => Array.from({ length: at.columns }, () => format.number));
  }
  if (format.border !== undefined) applyBorder(range, at, format.border);
}

function applyBorder(range: Excel.Range, at: Area, border: NonNullable<CellFormat["border"]>): void {
  const below = ["EdgeBottom", ...(at.rows > 1 ? ["InsideHorizontal"] : [])] as const;
  const all = [...below, "EdgeTop", "EdgeLeft", "EdgeRight", ...(at.columns > 1 ? ["InsideVertical"] : [])] as const;
  for (const side of border === "bottom" ? below : all) {
    const line = range.format.borders.getItem(side as Excel.BorderIndex);
    if (border === "none") line.style = "None";
    else {
      line.style = "Continuous";
      line.color = LINE;
    }
  }
}
