import {
  BooleanNumber,
  BorderStyleTypes,
  CellValueType,
  HorizontalAlign,
  VerticalAlign,
  WrapStrategy,
  type ICellData,
  type IStyleData,
} from "@univerjs/core";
import type { CellFormat, CellWrite } from "../../workbook/port";
import { storedValue } from "../engine/stored-value";

/** Everything that a cell can hold besides its look, taken out. */
const CLEARED = { f: null, si: null, p: null, custom: null } as const;

/** A cell's new content as the grid stores it; `undefined` leaves the cell alone. */
export function contentOf(write: CellWrite): ICellData | undefined {
  if (write === undefined) return undefined;
  if (typeof write === "object") return { ...CLEARED, v: null, f: write.formula };
  if (write === "") return { ...CLEARED, v: null };
  if (typeof write === "string" && looksLikeNumber(write))
    return { ...CLEARED, v: write, t: CellValueType.FORCE_STRING };
  return { ...CLEARED, ...storedValue(write) };
}

/** Text that the grid would turn into a number when the cell is edited the next time. */
function looksLikeNumber(text: string): boolean {
  return text.trim() !== "" && Number.isFinite(Number(text));
}

const HORIZONTAL = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT };
const VERTICAL = { top: VerticalAlign.TOP, middle: VerticalAlign.MIDDLE, bottom: VerticalAlign.BOTTOM };
const LINE = { s: BorderStyleTypes.THIN, cl: { rgb: "#C8CDD2" } };

/** A cell's look as the grid stores it; only what the format speaks of. */
export function styleOf(format: CellFormat): IStyleData {
  const style: IStyleData = {};
  if (format.bold !== undefined) style.bl = flag(format.bold);
  if (format.italic !== undefined) style.it = flag(format.italic);
  if (format.size !== undefined) style.fs = format.size;
  if (format.colour !== undefined) style.cl = { rgb: `#${format.colour}` };
  if (format.fill !== undefined) style.bg = { rgb: `#${format.fill}` };
  if (format.align !== undefined) style.ht = HORIZONTAL[format.align];
  if (format.vertical !== undefined) style.vt = VERTICAL[format.vertical];
  if (format.wrap !== undefined) style.tb = format.wrap ? WrapStrategy.WRAP : WrapStrategy.OVERFLOW;
  if (format.number !== undefined) style.n = { pattern: format.number };
  if (format.border === "none") style.bd = { t: null, r: null, b: null, l: null };
  if (format.border === "bottom") style.bd = { b: LINE };
  if (format.border === "all") style.bd = { t: LINE, r: LINE, b: LINE, l: LINE };
  return style;
}

function flag(on: boolean): BooleanNumber {
  return on ? BooleanNumber.TRUE : BooleanNumber.FALSE;
}
