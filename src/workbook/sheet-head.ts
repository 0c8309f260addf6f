import { LOOK } from "./look";
import { stretch, type SheetDraft } from "./sheet-draft";
import { linesOf } from "./text-lines";

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

/** Row below title and notes. */
export function rowBelowHead({ note }: { readonly note: readonly string[] }): number {
  return 1 + note.length;
}
