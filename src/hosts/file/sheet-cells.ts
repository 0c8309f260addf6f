import type { Cell, CellError } from "../../core/cell";
import { columnNumber, parseRange } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import { attribute, cellText, elements, firstElement } from "./xml";

/** The formula of a cell as the file stores it. */
export interface StoredFormula {
  /** Without the leading `=`, in the file's own spelling; empty where a shared one stands elsewhere. */
  readonly text: string;
  readonly kind: "plain" | "array" | "shared" | "data table";
  /** Cells that an array formula fills. */
  readonly ref?: Omit<Area, "sheet">;
  /** Group of a shared formula. */
  readonly group?: string;
}

/** A cell of a worksheet part, and where it lies in the part's text. */
export interface StoredCell {
  readonly row: number;
  readonly column: number;
  readonly value: Cell;
  readonly formula?: StoredFormula;
  /** False where a formula was saved without ever being calculated. */
  readonly hasValue: boolean;
  /** Marked as a dynamic array: its result may spill. */
  readonly dynamic: boolean;
  readonly start: number;
  readonly end: number;
}

export interface StoredRow {
  readonly row: number;
  readonly tag: string;
  readonly start: number;
  readonly innerStart: number;
  readonly innerEnd: number;
  readonly end: number;
  readonly cells: readonly StoredCell[];
}

/** Text that cells refer to by number. */
export type SharedStrings = readonly string[];

export function readSharedStrings(xml: string): SharedStrings {
  return [...elements(xml, "si")].map(({ inner }) => richText(inner));
}

/** Runs of rich text joined; phonetic guides left out. */
function richText(xml: string): string {
  const spoken = xml.includes("rPh") ? xml.replaceAll(/<(?:[\w.-]+:)?rPh[\s>][\s\S]*?<\/(?:[\w.-]+:)?rPh>/gu, "") : xml;
  return [...elements(spoken, "t")].map(({ inner }) => cellText(inner)).join("");
}

/**
 * Reads every row and cell of a worksheet part.
 *
 * @param xml - Text of the part
 * @param strings - The workbook's shared strings
 * @param dynamic - True of the numbers in `cm` that mark dynamic arrays
 */
export function readRows(
  xml: string,
  strings: SharedStrings,
  dynamic: (metadata: number) => boolean,
): readonly StoredRow[] {
  const data = firstElement(xml, "sheetData");
  if (!data) return [];
  return [...rowsIn(data.inner, data.innerStart, -1, strings, dynamic)];
}

/**
 * Reads the rows of some text.
 *
 * @param offset - Where the text starts in its part
 * @param previous - Row before the first one: a row need not say its number
 */
export function* rowsIn(
  xml: string,
  offset: number,
  previous: number,
  strings: SharedStrings,
  dynamic: (metadata: number) => boolean,
): Generator<StoredRow> {
  for (const found of elements(xml, "row")) {
    const row = Number(attribute(found.tag, "r") ?? previous + 2) - 1;
    const innerStart = offset + found.innerStart;
    yield {
      row,
      tag: found.tag,
      start: offset + found.start,
      innerStart,
      innerEnd: innerStart + found.inner.length,
      end: offset + found.end,
      cells: readCells(found.inner, row, innerStart, strings, dynamic),
    };
    previous = row;
  }
}

function readCells(
  xml: string,
  row: number,
  offset: number,
  strings: SharedStrings,
  dynamic: (metadata: number) => boolean,
): readonly StoredCell[] {
  const cells: StoredCell[] = [];
  let previous = -1;
  for (const found of elements(xml, "c")) {
    const name = attribute(found.tag, "r");
    const column = name ? columnNumber(name.replaceAll(/\d/gu, "")) : previous + 1;
    const metadata = attribute(found.tag, "cm");
    const formula = storedFormula(found.inner);
    cells.push({
      row,
      column,
      value: storedValue(found.tag, found.inner, strings),
      ...(formula ? { formula } : {}),
      hasValue: firstElement(found.inner, "v") !== undefined || firstElement(found.inner, "is") !== undefined,
      dynamic: metadata !== undefined && dynamic(Number(metadata)),
      start: offset + found.start,
      end: offset + found.end,
    });
    previous = column;
  }
  return cells;
}

function storedFormula(inner: string): StoredFormula | undefined {
  const found = firstElement(inner, "f");
  if (!found) return undefined;
  const type = attribute(found.tag, "t");
  const ref = parseRange(attribute(found.tag, "ref") ?? "");
  const group = attribute(found.tag, "si");
  return {
    text: cellText(found.inner),
    kind: type === "array" ? "array" : type === "shared" ? "shared" : type === "dataTable" ? "data table" : "plain",
    ...(ref ? { ref } : {}),
    ...(group === undefined ? {} : { group }),
  };
}

function storedValue(tag: string, inner: string, strings: SharedStrings): Cell {
  const type = attribute(tag, "t") ?? "n";
  if (type === "inlineStr") return richText(firstElement(inner, "is")?.inner ?? "");
  const found = firstElement(inner, "v");
  if (!found) return "";
  const text = cellText(found.inner);
  switch (type) {
    case "s":
      return strings[Number(text)] ?? "";
    case "str":
    case "d":
      return text;
    case "b":
      return text === "1" || text === "true";
    case "e":
      return { error: text as CellError["error"] };
    default:
      return text.trim() === "" || Number.isNaN(Number(text)) ? text : Number(text);
  }
}
