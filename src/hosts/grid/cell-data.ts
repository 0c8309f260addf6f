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
import { hexOf } from "./hex-colour";

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

/** What of a cell's look the steps can speak of; the way back from `styleOf`. */
export function formatOf(style: IStyleData): CellFormat {
  const rgb = (colour: IStyleData["cl"]) => hexOf(colour?.rgb ?? undefined);
  const line = (side: unknown) => side !== null && side !== undefined;
  const { bd } = style;
  const border = bd && (line(bd.t) && line(bd.l) ? "all" : line(bd.b) ? "bottom" : undefined);
  return {
    ...(style.bl !== undefined && style.bl !== null ? { bold: style.bl === BooleanNumber.TRUE } : {}),
    ...(style.it !== undefined && style.it !== null ? { italic: style.it === BooleanNumber.TRUE } : {}),
    ...(style.fs !== undefined ? { size: style.fs } : {}),
    ...(rgb(style.cl) !== undefined ? { colour: rgb(style.cl)! } : {}),
    ...(rgb(style.bg) !== undefined ? { fill: rgb(style.bg)! } : {}),
    ...named("align", HORIZONTAL, style.ht ?? undefined),
    ...named("vertical", VERTICAL, style.vt ?? undefined),
    ...(style.tb === WrapStrategy.WRAP ? { wrap: true } : {}),
    ...(style.n?.pattern ? { number: style.n.pattern } : {}),
    ...(border ? { border } : {}),
  };
}

function named<K extends string, N extends string>(
  key: K,
  names: Readonly<Record<N, number>>,
  value: number | undefined,
) {
  const name = (Object.keys(names) as N[]).find((one) => names[one] === value);
  return (name === undefined ? {} : { [key]: name }) as { readonly [P in K]?: N };
}
