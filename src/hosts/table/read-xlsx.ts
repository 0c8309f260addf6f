import { readFileSync } from "node:fs";
import type { Cell } from "../../core/cell";
import { headerOf } from "../../core/fleet/table-shape";
import { isReading } from "../../core/readings/catalogue";
import { matchLabel } from "../../core/readings/match";
import { openPackage } from "../file/open-package";
import { partPieces } from "../file/part-pieces";
import { rowsIn } from "../file/sheet-cells";
import { attribute, firstElement } from "../file/xml";
import { outlineOf, type WorkbookOutline } from "../file/workbook-outline";
import { CHUNK_ROWS, noHeader, type Position, type TableChunk } from "./table-chunk";

/** Rows that the header is looked for in. */
const OPENING = 12;

/** Reads one sheet that has a header, row by row: only its packed file and the shared texts are held. */
export function* readXlsx(file: string, f: number, start: Position): Generator<TableChunk> {
  const { sheet, headerAt, header, others } = fleetSheet(file);
  const dates = sheet.from1904 ? dateColumns(header) : [];
  let rows: (readonly Cell[])[] = [];
  let done = start.rows;
  let at = -1;
  const chunk = (): TableChunk => ({
    file,
    header,
    rows,
    firstRow: headerAt + 2 + done,
    opens: done === 0,
    ...(done === 0 && others.length > 0 ? { notRead: others } : {}),
    next: { file: f, rows: done + rows.length, byte: 0 },
  });
  for (const row of sheet.rows()) {
    at += 1;
    if (at <= headerAt + start.rows) continue;
    rows.push(dates.length === 0 ? row : row.map((cell, c) => (dates.includes(c) ? from1900(cell) : cell)));
    if (rows.length < CHUNK_ROWS) continue;
    yield chunk();
    done += rows.length;
    rows = [];
  }
  if (rows.length > 0) yield chunk();
}

/** Days by which workbooks differ that count from 1904 and from 1900 [ECMA-376 part 1, 18.17.4.1]. */
const DAYS_APART = 1462;

function dateColumns(header: readonly Cell[]): readonly number[] {
  return Array.from(header.keys()).filter((c) => matchLabel(String(header[c] ?? ""))?.entry.id === "visit-date");
}

function from1900(cell: Cell): Cell {
  return typeof cell === "number" ? cell + DAYS_APART : cell;
}

/**
 * The sheet with a known header, of several the one with most rows: first come those with a machine and readings in
 * a row, then those with readings, and what is not hidden.
 */
function fleetSheet(file: string) {
  const bytes = readFileSync(file);
  const parts = openPackage(bytes, file, (part) => !/\/(?:worksheets\/[^/]+|media\/.+|pivotCache\/.+)$/u.test(part));
  const outline = outlineOf(parts, file);
  const known = outline.sheets.flatMap(({ name, part, hidden }) => {
    if (part === undefined) return [];
    const sheet = new SheetRows(bytes, part, outline, file);
    const opening = firstOf(sheet.rows(), OPENING);
    const found = headerOf(opening);
    if (found === undefined) return [];
    const { row: headerAt, header } = found;
    return [{ name, sheet, headerAt, header, rank: 2 * rankOf(header) + Number(!hidden) }];
  });
  if (!known[0]) throw noHeader(file);
  const best = Math.max(...known.map(({ rank }) => rank));
  const first = known.filter(({ rank }) => rank === best);
  const counts = first.length > 1 ? first.map(({ sheet }) => sheet.count()) : [0];
  const chosen = first[counts.indexOf(Math.max(...counts))]!;
  const others = known.filter((one) => one !== chosen && rankOf(one.header) > 0).map(({ name }) => name);
  return { ...chosen, others };
}

/** 2 for readings of named machines, 1 for readings alone, as a job sheet has them; other lists have names and dates too. */
function rankOf(header: readonly Cell[]): number {
  const entries = header.flatMap((cell) => matchLabel(String(cell ?? ""))?.entry ?? []);
  if (!entries.some(isReading)) return 0;
  return entries.some(({ id }) => id === "machine-name") ? 2 : 1;
}

/** Programs that write workbooks without calculating them leave formulas like this: a reading is there, unknown. */
const NO_VALUE = "formula without a value";

class SheetRows {
  constructor(
    private readonly bytes: Uint8Array,
    private readonly part: string,
    private readonly outline: WorkbookOutline,
    private readonly file: string,
  ) {}

  /** Whether the numbers of its dates count from 1904, as those of old programs do. */
  get from1904(): boolean {
    const properties = firstElement(this.outline.workbook, "workbookPr");
    return /^(?:1|true)$/u.test((properties && attribute(properties.tag, "date1904")) ?? "");
  }

  /** Values from row 1 and column A on, blank where the sheet holds none. */
  *rows(): Generator<readonly Cell[]> {
    const { strings, dynamic } = this.outline;
    let last = -1;
    for (const text of this.wholeRows())
      for (const { row, cells } of rowsIn(text, 0, last, strings, dynamic)) {
        while (++last < row) yield [];
        const line: Cell[] = [];
        for (const { column, value, formula, hasValue } of cells)
          line[column] = formula && !hasValue ? NO_VALUE : value;
        yield Array.from(line, (cell) => cell ?? "");
      }
  }

  count(): number {
    let rows = 0;
    for (const text of this.wholeRows()) rows += text.match(/<(?:[\w.-]+:)?row(?=[\s/>])/gu)?.length ?? 0;
    return rows;
  }

  /** The part's text in pieces that end where a row ends. */
  private *wholeRows(): Generator<string> {
    let rest = "";
    for (const piece of partPieces(this.bytes, this.part, this.file)) {
      const text = rest + piece;
      const end = text.lastIndexOf("row>") + 4;
      // The end of a row may be spelt with a prefix.
      const whole = end > 4 && /<\/(?:[\w.-]+:)?row>$/u.test(text.slice(Math.max(0, end - 80), end)) ? end : 0;
      if (whole > 0) yield text.slice(0, whole);
      rest = text.slice(whole);
    }
    yield rest;
  }
}

function firstOf<T>(values: Iterable<T>, count: number): T[] {
  const first: T[] = [];
  for (const value of values) if (first.push(value) === count) break;
  return first;
}
