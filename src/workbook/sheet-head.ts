import { LOOK } from "./look";
import { stretch, type SheetDraft } from "./sheet-draft";
import { charactersOf, linesOf } from "./text-lines";

/** Title and notes over the first `columns` columns, which are `width` characters wide together. */
export function drawHead(
  draft: SheetDraft,
  { title, note }: { readonly title: string; readonly note: readonly string[] },
  columns: number,
  width: number,
): void {
  draft
    .put(0, 0, title)
    .format(stretch(0, 0, 1), LOOK.title)
    .height(0, 20);
  note.forEach((text, i) => {
    const at = stretch(1 + i, 0, columns);
    draft
      .put(at.row, 0, text)
      .merge(at)
      .format(at, LOOK.note)
      .height(at.row, 12 * linesOf(text, width, LOOK.note.size) + 2);
  });
}

/** Of the type of column heads and a little more: it is bold. */
const HEADER_SIZE = 1.05 * LOOK.columnHead.size;

/** Characters that a column takes for its header, which is broken between words only and into four lines at most. */
export function headerWidth(header: string): number {
  let width = 1 + widest(header.split(" "), HEADER_SIZE);
  while (headerLines(header, width) > 4) width += 1;
  return width;
}

function headerLines(header: string, width: number): number {
  return linesOf(header, width - 0.5, HEADER_SIZE);
}

/** Characters that a column takes for any of some words that are typed into it. */
export function roomFor(words: readonly string[]): number {
  return words.length === 0 ? 0 : 1 + widest(words, LOOK.input.size);
}

function widest(texts: readonly string[], size: number): number {
  return Math.max(...texts.map((text) => charactersOf(text, size)));
}

/** Height of a row of headers over columns of some widths [points]. */
export function headerHeight(headers: readonly string[], widths: readonly number[]): number {
  return 12 * Math.max(...headers.map((header, i) => headerLines(header, widths[i]!))) + 2;
}

/** Row below title and notes. */
export function rowBelowHead({ note }: { readonly note: readonly string[] }): number {
  return 1 + note.length;
}
