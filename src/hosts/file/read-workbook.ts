import type { Cell } from "../../core/cell";
import { parseRange } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import { openPackage, partText, type Parts } from "./open-package";
import { readRows, type StoredCell, type StoredRow } from "./sheet-cells";
import { outlineOf, relations } from "./workbook-outline";
import { attribute, cellText, elements, firstElement, unescapeXml } from "./xml";

/** A worksheet of a file. */
export interface StoredSheet {
  readonly name: string;
  /** Path of its part. */
  readonly part: string;
  readonly xml: string;
  readonly rows: readonly StoredRow[];
  at(row: number, column: number): StoredCell | undefined;
  readonly merges: readonly Area[];
}

export interface StoredTable {
  readonly name: string;
  readonly at: Area;
  readonly columns: readonly string[];
  readonly headerRows: number;
  readonly totalsRows: number;
}

export interface StoredName {
  readonly name: string;
  /** Without the leading `=`. */
  readonly formula: string;
  /** Only known on this sheet. */
  readonly sheet?: string;
}

export interface StoredWorkbook {
  readonly parts: Parts;
  readonly sheets: readonly StoredSheet[];
  readonly names: readonly StoredName[];
  readonly tables: readonly StoredTable[];
  readonly activeSheet: number;
}

/** Values of a sheet from A1 on, blank where it holds none. */
export function valuesOf({ rows }: StoredSheet): readonly (readonly Cell[])[] {
  const lines: Cell[][] = [];
  for (const { row, cells } of rows) {
    const line: Cell[] = (lines[row] = []);
    for (const { column, value } of cells) line[column] = value;
  }
  return Array.from(lines, (line) => Array.from(line ?? [], (cell) => cell ?? ""));
}

/**
 * Reads what a workbook file holds; nothing of it is changed.
 *
 * @throws WorkbookFault of reason `file`
 */
export function readWorkbook(bytes: Uint8Array, name: string): StoredWorkbook {
  const parts = openPackage(bytes, name);
  const { workbook, strings, dynamic, sheets: listed } = outlineOf(parts, name);
  const sheets: StoredSheet[] = [];
  const tables: StoredTable[] = [];
  for (const { name: sheetName, part } of listed) {
    // Chart sheets have no cells.
    if (part === undefined || !parts.has(part)) continue;
    const xml = partText(parts, part, name);
    const rows = readRows(xml, strings, dynamic);
    sheets.push({
      name: sheetName,
      part,
      xml,
      rows,
      at: finder(rows),
      merges: mergesOf(xml, sheetName),
    });
    for (const { type, target } of relations(parts, part)) {
      const table =
        type.endsWith("/table") && parts.has(target) ? readTable(partText(parts, target, name), sheetName) : undefined;
      if (table) tables.push(table);
    }
  }
  const names = [...elements(workbook, "definedName")].map(({ tag, inner }): StoredName => {
    const local = attribute(tag, "localSheetId");
    const sheet = local === undefined ? undefined : listed[Number(local)]?.name;
    return {
      name: attribute(tag, "name") ?? "",
      formula: unescapeXml(inner),
      ...(sheet === undefined ? {} : { sheet }),
    };
  });
  const view = firstElement(workbook, "workbookView");
  return { parts, sheets, names, tables, activeSheet: Number((view && attribute(view.tag, "activeTab")) ?? 0) };
}

function finder(rows: readonly StoredRow[]): StoredSheet["at"] {
  const cells = new Map(rows.map(({ row, cells }) => [row, new Map(cells.map((cell) => [cell.column, cell]))]));
  return (row, column) => cells.get(row)?.get(column);
}

function mergesOf(xml: string, sheet: string): readonly Area[] {
  return [...elements(xml, "mergeCell")].flatMap(({ tag }) => {
    const at = parseRange(attribute(tag, "ref") ?? "");
    return at ? [{ sheet, ...at }] : [];
  });
}

function readTable(xml: string, sheet: string): StoredTable | undefined {
  const table = firstElement(xml, "table");
  const at = table && parseRange(attribute(table.tag, "ref") ?? "");
  if (!table || !at) return undefined;
  return {
    name: attribute(table.tag, "displayName") ?? attribute(table.tag, "name") ?? "",
    at: { sheet, ...at },
    columns: [...elements(xml, "tableColumn")].map(({ tag }) => cellText(attribute(tag, "name") ?? "")),
    headerRows: Number(attribute(table.tag, "headerRowCount") ?? 1),
    totalsRows: Number(attribute(table.tag, "totalsRowCount") ?? 0),
  };
}
