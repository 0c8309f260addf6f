import type { Cell } from "../../core/cell";
import { parseRange } from "../../workbook/address";
import type { Area } from "../../workbook/port";
import { WorkbookFault } from "../../workbook/port";
import { openPackage, partText, type Parts } from "./open-package";
import { readRows, readSharedStrings, type StoredCell, type StoredRow } from "./sheet-cells";
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
  const workbookPart =
    relations(parts, "").find(({ type }) => type.endsWith("/officeDocument"))?.target ?? "xl/workbook.xml";
  const workbook = partText(parts, workbookPart, name);
  if (!firstElement(workbook, "sheets"))
    throw new WorkbookFault(`${name} is not a workbook; give a file saved as .xlsx.`, "file");
  const related = relations(parts, workbookPart);
  const partOf = (id: string) => related.find((relation) => relation.id === id);
  const byType = (type: string) => related.find((relation) => relation.type.endsWith(type))?.target;

  const stringsPart = byType("/sharedStrings");
  const strings = stringsPart && parts.has(stringsPart) ? readSharedStrings(partText(parts, stringsPart, name)) : [];
  const metadataPart = byType("/sheetMetadata");
  const dynamic = dynamicMarks(metadataPart && parts.has(metadataPart) ? partText(parts, metadataPart, name) : "");

  const sheets: StoredSheet[] = [];
  const tables: StoredTable[] = [];
  const order: string[] = [];
  for (const { tag } of elements(workbook, "sheet")) {
    const sheetName = attribute(tag, "name") ?? "";
    order.push(sheetName);
    const relation = partOf(/\s(?:[\w.-]+:)id\s*=\s*["']([^"']*)["']/u.exec(tag)?.[1] ?? "");
    // Chart sheets have no cells.
    if (!relation?.type.endsWith("/worksheet") || !parts.has(relation.target)) continue;
    const xml = partText(parts, relation.target, name);
    const rows = readRows(xml, strings, dynamic);
    sheets.push({
      name: sheetName,
      part: relation.target,
      xml,
      rows,
      at: finder(rows),
      merges: mergesOf(xml, sheetName),
    });
    for (const { type, target } of relations(parts, relation.target)) {
      const table =
        type.endsWith("/table") && parts.has(target) ? readTable(partText(parts, target, name), sheetName) : undefined;
      if (table) tables.push(table);
    }
  }
  const names = [...elements(workbook, "definedName")].map(({ tag, inner }): StoredName => {
    const local = attribute(tag, "localSheetId");
    const sheet = local === undefined ? undefined : order[Number(local)];
    return {
      name: attribute(tag, "name") ?? "",
      formula: unescapeXml(inner),
      ...(sheet === undefined ? {} : { sheet }),
    };
  });
  const view = firstElement(workbook, "workbookView");
  return { parts, sheets, names, tables, activeSheet: Number((view && attribute(view.tag, "activeTab")) ?? 0) };
}

interface Relation {
  readonly id: string;
  readonly type: string;
  readonly target: string;
}

/** What a part refers to, with paths resolved; `""` for the package itself. */
function relations(parts: Parts, part: string): readonly Relation[] {
  const slash = part.lastIndexOf("/");
  const folder = part.slice(0, slash + 1);
  const path = `${folder}_rels/${part.slice(slash + 1)}.rels`;
  const data = parts.get(path);
  if (!data) return [];
  return [...elements(new TextDecoder().decode(data), "Relationship")].map(({ tag }) => {
    const target = attribute(tag, "Target") ?? "";
    return { id: attribute(tag, "Id") ?? "", type: attribute(tag, "Type") ?? "", target: resolvePath(folder, target) };
  });
}

function resolvePath(folder: string, target: string): string {
  const steps = (target.startsWith("/") ? target.slice(1) : folder + target).split("/");
  const path: string[] = [];
  for (const step of steps) {
    if (step === "..") path.pop();
    else if (step !== "" && step !== ".") path.push(step);
  }
  return path.join("/");
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

/** Which numbers in a cell's `cm` mean a dynamic array. */
function dynamicMarks(metadata: string): (mark: number) => boolean {
  const types = [...elements(metadata, "metadataType")].map(({ tag }) => attribute(tag, "name"));
  const cells = firstElement(metadata, "cellMetadata")?.inner ?? "";
  const marks = [...elements(cells, "bk")].map(({ inner }) =>
    [...elements(inner, "rc")].some(({ tag }) => types[Number(attribute(tag, "t")) - 1] === "XLDAPR"),
  );
  return (mark) => marks[mark - 1] ?? false;
}
