import { fixedCell, fixedRange } from "./address";
import { guarded } from "./blank-guard";
import { listColumnWithHeader, listRange, type ListLayout } from "./list-layout";
import { LOOK } from "./look";
import { COLUMN, rowOfFact, rowsOf, type PageLayout, type PageSetting } from "./page-layout";
import { stretch, type SheetDraft } from "./sheet-draft";

/** What every function of a page is given: ranges of its workings, in which blanks are blank text. */
export interface PageArguments {
  readonly readings: string;
  /** Readings taken once more after the repair. */
  readonly proof: string;
  readonly machine: string;
  /** Known-good parts of the machine's own part number; absent where no such list is at hand. */
  readonly knownGood?: string;
  /** What to say beside a reading that cannot be read, and the words by which a sentence comes to its limit. */
  readonly said: { readonly unreadable: string; readonly limit: string };
}

const PART_NUMBER = "regulator-part-number";

/**
 * Draws, in the workings, what the functions are given: labels and values with blanks kept blank,
 * and the known-good parts that carry the machine's part number. Written once, not in every formula.
 */
export function drawGiven(draft: SheetDraft, { template, lists }: PageSetting, layout: PageLayout): PageArguments {
  const block = ({ first, last }: { first: number; last: number }) => {
    const source = fixedRange(stretch(first, COLUMN.label, 2, rowsOf({ first, last })));
    return spill(draft, first, COLUMN.given, guarded(source), rowsOf({ first, last }), 2);
  };
  const { first, entries } = layout.proof;
  const reference = lists.get(template.verdict.knownGood);
  const partRow = rowOfFact(layout, PART_NUMBER);
  return {
    said: template.columns,
    machine: block(layout.factRows),
    readings: block(layout.readingRows),
    proof: block({ first, last: first + entries.length - 1 }),
    ...(reference && partRow !== undefined
      ? {
          knownGood: spill(
            draft,
            layout.factRows.first,
            COLUMN.knownGood,
            sameNumber(reference, fixedCell(partRow, COLUMN.value)),
            reference.rows + 1,
            reference.columns.length,
          ),
        }
      : {}),
  };
}

function spill(draft: SheetDraft, row: number, column: number, formula: string, rows: number, columns: number): string {
  draft.put(row, column, { formula: `=${formula}`, spills: { rows, columns } });
  draft.format(stretch(row, column, columns, rows), LOOK.working);
  return fixedRange(stretch(row, column, columns, rows));
}

/** The rows of a list of known-good parts that carry the machine's part number, below their headers; the others blank. */
function sameNumber(list: ListLayout, part: string): string {
  const numbers = listColumnWithHeader(list, PART_NUMBER);
  // The header row is the one that equals its own first cell.
  return `IF((${numbers}=${firstCell(numbers)})+(${numbers}=${part})*(${part}<>"")>0,${guarded(listRange(list))},"")`;
}

function firstCell(range: string): string {
  return range.slice(0, range.indexOf(":"));
}
