import { readFileSync } from "node:fs";
import type { Cell } from "../../core/cell";
import { headerRowOf } from "../../core/fleet/table-shape";
import { openPackage } from "../file/open-package";
import { partPieces } from "../file/part-pieces";
import { rowsIn } from "../file/sheet-cells";
import { outlineOf, type WorkbookOutline } from "../file/workbook-outline";
import { CHUNK_ROWS, noHeader, type Position, type TableChunk } from "./table-chunk";

/** Rows that the header is looked for in. */
const OPENING = 12;

/** Reads the longest sheet that has a header, row by row: only its packed file and the shared texts are held. */
export function* readXlsx(file: string, f: number, start: Position): Generator<TableChunk> {
  const { sheet, headerAt, header } = fleetSheet(file);
  let rows: (readonly Cell[])[] = [];
  let done = start.rows;
  let at = -1;
  const chunk = (): TableChunk => ({
    file,
    header,
    rows,
    firstRow: headerAt + 2 + done,
    opens: done === 0,
    next: { file: f, rows: done + rows.length, byte: 0 },
  });
  for (const row of sheet.rows()) {
    at += 1;
    if (at <= headerAt + start.rows) continue;
    rows.push(row);
    if (rows.length < CHUNK_ROWS) continue;
    yield chunk();
    done += rows.length;
    rows = [];
  }
  if (rows.length > 0) yield chunk();
}

/** The sheet with a known header; of several the one with most rows. */
function fleetSheet(file: string) {
  const bytes = readFileSync(file);
  const parts = openPackage(bytes, file, (part) => !/\/(?:worksheets\/[^/]+|media\/.+|pivotCache\/.+)$/u.test(part));
  const outline = outlineOf(parts, file);
  const known = outline.sheets.flatMap(({ part }) => {
    if (part === undefined) return [];
    const sheet = new SheetRows(bytes, part, outline, file);
    const opening = firstOf(sheet.rows(), OPENING);
    const headerAt = headerRowOf(opening);
    return headerAt === undefined ? [] : [{ sheet, headerAt, header: opening[headerAt]! }];
  });
  if (known.length < 2) {
    if (!known[0]) throw noHeader(file);
    return known[0];
  }
  const counts = known.map(({ sheet }) => sheet.count());
  return known[counts.indexOf(Math.max(...counts))]!;
}

class SheetRows {
  constructor(
    private readonly bytes: Uint8Array,
    private readonly part: string,
    private readonly outline: WorkbookOutline,
    private readonly file: string,
  ) {}

  /** Values from row 1 and column A on, blank where the sheet holds none. */
  *rows(): Generator<readonly Cell[]> {
    const { strings, dynamic } = this.outline;
    let last = -1;
    for (const text of this.wholeRows())
      for (const { row, cells } of rowsIn(text, 0, last, strings, dynamic)) {
        while (++last < row) yield [];
        const line: Cell[] = [];
        for (const { column, value } of cells) line[column] = value;
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
