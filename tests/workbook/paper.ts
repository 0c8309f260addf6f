import { BookModel, type SheetModel } from "../../src/hosts/file/book-model";
import type { CellFormat, Step } from "../../src/workbook/port";
import widths from "./letter-widths.json";

/** ISO 216 and ANSI/ASME Y14.1, in points, upright. */
const PAPERS = { A4: [595.3, 841.9], Letter: [612, 792] } as const;
export type Paper = keyof typeof PAPERS;
/** What a file leaves free at the edges of a page, both sides together [points]. */
const MARGINS = { across: 0.8 * 72, down: 0.7 * 72 };
const POINTS_A_PIXEL = 0.75;
/** A row and a column of which nothing is said. */
const ROW_POINTS = 15;
const COLUMN_CHARACTERS = 9.14;

/** What a sheet is shown in: a face, and the width of a column for each of its characters [px]. */
export interface Shown {
  readonly face: "Calibri" | "Arial";
  readonly pixels: 6 | 7;
}
/** A file, whose usual type is Calibri 10, where its columns come out narrowest; a file where widest; the page. */
export const SHOWN: readonly Shown[] = [
  { face: "Calibri", pixels: 6 },
  { face: "Calibri", pixels: 7 },
  { face: "Arial", pixels: 7 },
];

/** A sheet as a file would hold it. */
export function sheetOf(steps: readonly Step[], name: string): SheetModel {
  const book = new BookModel();
  book.apply([{ do: "add sheet", sheet: name }, ...steps.filter((step) => step.do !== "add sheet")]);
  return book.sheet(name);
}

export function columnPoints(sheet: SheetModel, column: number, pixels: number): number {
  return Math.trunc((sheet.widths.get(column) ?? COLUMN_CHARACTERS) * pixels + 5) * POINTS_A_PIXEL;
}

/**
 * Pages of a sheet as a spreadsheet parts them: the largest whole percent at which it fits, no row cut in two.
 *
 * @returns Percent, and the first row of every page
 */
export function printed(sheet: SheetModel, paper: Paper, pixels: number) {
  const { at, setup } = sheet.print!;
  const wide = sum(Array.from({ length: at.columns }, (_, c) => columnPoints(sheet, at.column + c, pixels)));
  const rows = Array.from({ length: at.rows }, (_, r) => sheet.heights.get(at.row + r) ?? ROW_POINTS);
  const titles = sum(rows.slice(0, setup.titleRows ?? 0));
  const [short, long] = PAPERS[paper];
  const [across, down] = setup.orientation === "portrait" ? [short, long] : [long, short];
  for (let percent = 100; percent > 9; percent--) {
    const room = (points: number) => (points * 100) / percent;
    const pages = pagesOf(rows, room(down - MARGINS.down), titles);
    const fits = pages.length <= (setup.fitHeightPages ?? Infinity);
    if (fits && wide <= room(across - MARGINS.across) * setup.fitWidthPages) return { percent, pages };
  }
  throw new Error("It fits at no size.");
}

function pagesOf(rows: readonly number[], room: number, titles: number): number[] {
  const firsts = [0];
  let left = room;
  rows.forEach((points, row) => {
    if (points > left) {
      firsts.push(row);
      left = room - titles;
    }
    left -= points;
  });
  return firsts;
}

/** The smallest type of what a sheet prints, on paper [points]. */
export function smallestType(sheet: SheetModel, percent: number): number {
  const { at } = sheet.print!;
  const sizes = [...sheet.filled()]
    .filter(({ row, column }) => row < at.row + at.rows && column < at.column + at.columns)
    .map(({ row, column }) => sizeOf(sheet.formats.get(row)?.get(column) ?? {}));
  return (Math.min(...sizes) * percent) / 100;
}

/** Text that stands in cells and how much of it cannot be seen: `Job B2: …`. */
export function cutTexts(sheet: SheetModel, shown: Shown, also: ReadonlyMap<string, string> = new Map()): string[] {
  const out: string[] = [];
  const texts = [...sheet.filled()].flatMap(({ row, column, content }) =>
    typeof content === "string" ? [{ row, column, text: content }] : [],
  );
  for (const [place, text] of also) {
    const [row, column] = place.split(",").map(Number) as [number, number];
    texts.push({ row, column, text });
  }
  const printedColumns = sheet.print!.at.columns;
  for (const { row, column, text } of texts) {
    if (column >= printedColumns) continue;
    const merged = sheet.merges.find((at) => at.row === row && at.column === column);
    const format = sheet.formats.get(row)?.get(column) ?? {};
    let columns = merged?.columns ?? 1;
    const free = (c: number) => sheet.content(row, c) === undefined && c < printedColumns;
    if (!format.wrap && format.align !== "right") while (free(column + columns)) columns += 1;
    const wide = sum(Array.from({ length: columns }, (_, c) => columnPoints(sheet, column + c, shown.pixels)));
    // A cell leaves two pixels free at each side.
    const lines = linesIn(text, wide - 4 * POINTS_A_PIXEL, format, shown.face);
    const high = sum(Array.from({ length: merged?.rows ?? 1 }, (_, r) => sheet.heights.get(row + r) ?? Infinity));
    const needed = lines * sizeOf(format) * widths[shown.face].line;
    // What a line keeps free above and below its letters may be lost, not more.
    const cut = format.wrap ? needed > high + SLACK : lines > 1;
    if (cut) out.push(`${sheet.name} ${row + 1},${column + 1} (${lines} lines): ${text}`);
  }
  return out;
}
const SLACK = 0.5;

function sizeOf({ size = 10 }: CellFormat): number {
  return size;
}

/** Lines that a text takes where so many points are free, words kept whole. */
function linesIn(text: string, room: number, format: CellFormat, face: Shown["face"]): number {
  return sum(text.split("\n").map((line) => linesOfOne(line, room, format, face)));
}

function linesOfOne(text: string, room: number, format: CellFormat, face: Shown["face"]): number {
  const wide = (part: string) => pointsOf(part, format, face);
  let lines = 1;
  let line = "";
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && wide(longer) > room) {
      lines += 1;
      line = word;
    } else line = longer;
    // A word longer than a line is broken within.
    lines += Math.max(0, Math.ceil(wide(line) / room) - 1);
  }
  return lines;
}

export function pointsOf(text: string, format: CellFormat, face: Shown["face"]): number {
  const of = THOUSANDTHS[face][format.bold ? "bold" : "regular"];
  return (sum([...text].map((letter) => of.get(letter) ?? WIDEST)) * sizeOf(format)) / 1000;
}

/** A letter that the fonts' tables leave out. */
const WIDEST = 900;
const letters = (table: Readonly<Record<string, string>>) =>
  new Map(Object.entries(table).flatMap(([width, all]) => [...all].map((letter) => [letter, Number(width)])));
const THOUSANDTHS = {
  Calibri: { regular: letters(widths.Calibri.regular), bold: letters(widths.Calibri.bold) },
  Arial: { regular: letters(widths.Arial.regular), bold: letters(widths.Arial.bold) },
};

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}
