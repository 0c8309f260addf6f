import { cellName } from "./address";
import { LOOK } from "./look";
import { COLUMN, LINE, ROW, widthFrom } from "./page-layout";
import { stretch, type SheetDraft } from "./sheet-draft";

/** A sentence that may stand among others, as parts of formulas. */
export interface Line {
  /** True where there is nothing to say. */
  readonly none: string;
  readonly text: string;
}

/** Letters of a sentence for each character of a column's width, set as reasons are; few, for lines end with words. */
const LETTERS = 0.95;

/**
 * Sentences one below the other in one cell, as many as have room: of what is cut off nobody knows. Where one has no
 * room, dots say that there is more; it stands in the workings, where the text grows line by line.
 *
 * @param row - Of the workings, where the first sentence is added
 * @param at - First column of the cell, which reaches to the edge of the page, and its rows
 * @returns A formula that gives the text
 */
export function linesTogether(
  draft: SheetDraft,
  row: number,
  at: { readonly column: number; readonly rows: number },
  said: readonly Line[],
): string {
  const room = Math.floor((at.rows * ROW) / LINE);
  const letters = Math.floor(widthFrom(at.column) * LETTERS);
  let [text, taken] = ['""', "0"];
  said.forEach((line, i) => {
    const [together, used] = [cellName(row + i, COLUMN.lines), cellName(row + i, COLUMN.lines + 1)];
    const dots = `${text}&IF(RIGHT(${text},1)="…","","…")`;
    const longer = `${text}&IF(${text}="","",CHAR(10))&${line.text}`;
    draft
      .put(row + i, COLUMN.lines, { formula: `=IF(${line.none},${text},IF(${used}>${room},${dots},${longer}))` })
      .put(row + i, COLUMN.lines + 1, {
        formula: `=${taken}+IF(${line.none},0,ROUNDUP(LEN(${line.text})/${letters},0))`,
      });
    [text, taken] = [together, used];
  });
  draft.format(stretch(row, COLUMN.lines, 2, said.length), LOOK.working);
  return `=${text}&""`;
}
