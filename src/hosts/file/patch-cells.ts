import { isCellError, type Cell } from "../../core/cell";
import { cellName, rangeName } from "../../workbook/address";
import type { StoredSheet } from "./read-workbook";
import type { StoredCell, StoredRow } from "./sheet-cells";
import { attribute, elements, escapeXml, firstElement, splice, type Splice } from "./xml";

/** A new last value for a cell of a worksheet part. */
export interface CellPatch {
  readonly row: number;
  readonly column: number;
  readonly value: Cell;
  /** Size of what a dynamic array fills now, where that changed. */
  readonly fills?: { readonly rows: number; readonly columns: number };
}

/**
 * Writes last values into a worksheet part: only `<v>`, the type beside it and the reach of a dynamic
 * array change; everything else keeps its bytes. A cell that is not there yet is put in its place.
 */
export function patchCells(sheet: StoredSheet, patches: readonly CellPatch[]): string {
  const byRow = new Map<number, CellPatch[]>();
  for (const patch of patches) {
    const row = byRow.get(patch.row);
    if (row) row.push(patch);
    else byRow.set(patch.row, [patch]);
  }
  const changes: Splice[] = [];
  const stored = new Map(sheet.rows.map((row) => [row.row, row]));
  const prefix = /^<([\w.-]+:)/u.exec(firstElement(sheet.xml, "sheetData")?.tag ?? "")?.[1] ?? "";
  for (const [number, rowPatches] of [...byRow].sort(([a], [b]) => a - b)) {
    const row = stored.get(number);
    if (row) changes.push(...rowChanges(sheet.xml, row, rowPatches, prefix));
    else changes.push(newRow(sheet, number, rowPatches, prefix));
  }
  return splice(sheet.xml, joined(changes));
}

function rowChanges(xml: string, row: StoredRow, patches: readonly CellPatch[], prefix: string): Splice[] {
  const changes: Splice[] = [];
  const missing: CellPatch[] = [];
  for (const patch of patches) {
    const cell = row.cells.find(({ column }) => column === patch.column);
    if (cell)
      changes.push({ start: cell.start, end: cell.end, text: patched(xml.slice(cell.start, cell.end), cell, patch) });
    else missing.push(patch);
  }
  if (missing.length === 0) return changes;
  if (row.tag.endsWith("/>")) {
    const tag = `${row.tag.slice(0, -2).trimEnd()}>`;
    return [{ start: row.start, end: row.end, text: `${tag}${newCells(missing, prefix)}</${prefix}row>` }];
  }
  for (const patch of missing.sort((a, b) => a.column - b.column)) {
    const next = row.cells.find(({ column }) => column > patch.column);
    const at = next?.start ?? row.innerEnd;
    changes.push({ start: at, end: at, text: newCells([patch], prefix) });
  }
  return changes;
}

function newRow(sheet: StoredSheet, row: number, patches: readonly CellPatch[], prefix: string): Splice {
  const text = `<${prefix}row r="${row + 1}">${newCells(patches, prefix)}</${prefix}row>`;
  const next = sheet.rows.find((known) => known.row > row);
  if (next) return { start: next.start, end: next.start, text };
  const data = firstElement(sheet.xml, "sheetData")!;
  if (data.tag.endsWith("/>")) {
    return {
      start: data.start,
      end: data.end,
      text: `${data.tag.slice(0, -2).trimEnd()}>${text}</${prefix}sheetData>`,
    };
  }
  const at = data.innerStart + data.inner.length;
  return { start: at, end: at, text };
}

function newCells(patches: readonly CellPatch[], prefix: string): string {
  return [...patches]
    .sort((a, b) => a.column - b.column)
    .map(({ row, column, value }) => {
      const { type, text } = stored(value);
      return `<${prefix}c r="${cellName(row, column)}"${type && ` t="${type}"`}>${text === undefined ? "" : `<${prefix}v>${text}</${prefix}v>`}</${prefix}c>`;
    })
    .join("");
}

/** The cell's own text with another value; its style, formula and everything else kept. */
function patched(xml: string, cell: StoredCell, { value, fills }: CellPatch): string {
  const { type, text } = stored(value);
  const whole = elements(xml, "c").next().value!;
  const prefix = /^<([\w.-]+:)/u.exec(whole.tag)?.[1] ?? "";
  let tag = withAttribute(whole.tag.replace(/\s*\/>$/u, ">"), "t", type);
  // Metadata of a rich value belongs to the value that goes.
  tag = withAttribute(tag, "vm", "");
  let inner = whole.inner;
  if (fills && cell.formula?.ref) inner = withReach(inner, cell, fills);
  const content = text === undefined ? "" : `<${prefix}v>${text}</${prefix}v>`;
  const old = firstElement(inner, "v") ?? firstElement(inner, "is");
  if (old) inner = splice(inner, [{ start: old.start, end: old.end, text: content }]);
  else {
    const formula = firstElement(inner, "f");
    const at = formula?.end ?? 0;
    inner = splice(inner, [{ start: at, end: at, text: content }]);
  }
  return `${tag}${inner}</${prefix}c>`;
}

function withReach(inner: string, cell: StoredCell, fills: { rows: number; columns: number }): string {
  const formula = firstElement(inner, "f")!;
  const tag = withAttribute(formula.tag, "ref", rangeName({ row: cell.row, column: cell.column, ...fills }));
  return splice(inner, [{ start: formula.start, end: formula.innerStart, text: tag }]);
}

/** Replaces, adds or (for `""`) removes one attribute of a tag. */
function withAttribute(tag: string, name: string, value: string): string {
  const present = attribute(tag, name) !== undefined;
  const pattern = new RegExp(`\\s${name}\\s*=\\s*(?:"[^"]*"|'[^']*')`, "u");
  if (value === "") return present ? tag.replace(pattern, "") : tag;
  if (present) return tag.replace(pattern, ` ${name}="${value}"`);
  return tag.replace(/(\/?)>$/u, ` ${name}="${value}"$1>`);
}

/** A value as `<v>` holds it, with the cell's type; `""` for numbers, which carry none. */
function stored(value: Cell): { type: string; text?: string } {
  if (value === null || value === undefined) return { type: "" };
  if (typeof value === "number") return { type: "", text: String(value) };
  if (typeof value === "boolean") return { type: "b", text: value ? "1" : "0" };
  if (isCellError(value)) return { type: "e", text: escapeXml(value.error) };
  return { type: "str", text: escapeXml(value) };
}

/** Several insertions at one place become one, in the order given. */
function joined(changes: readonly Splice[]): Splice[] {
  const out: Splice[] = [];
  const order = changes
    .map((change, i) => ({ change, i }))
    .sort((a, b) => a.change.start - b.change.start || a.i - b.i);
  for (const { change } of order) {
    const last = out.at(-1);
    if (last && last.start === last.end && change.start === change.end && last.start === change.start) {
      out[out.length - 1] = { ...last, text: last.text + change.text };
    } else out.push(change);
  }
  return out;
}
