import { entriesOfCheck } from "../core/readings/catalogue";
import type { ListLayout } from "./list-layout";
import { LOOK } from "./look";
import type { SheetLanguage } from "./sheet-language";
import type { PageTemplate } from "./template-schema";

/** What a page is drawn with. */
export interface PageSetting {
  readonly template: PageTemplate;
  readonly sheet: string;
  /** Lists that stand in the same workbook, by template id. */
  readonly lists: ReadonlyMap<string, ListLayout>;
  readonly values: Readonly<Record<string, string | number>>;
  readonly language: SheetLanguage;
}

/**
 * Columns of a page. What the functions answer stands at the right of the printed page, from
 * `workings` on; the page itself shows it through plain formulas.
 */
export const COLUMN = {
  label: 0,
  value: 1,
  unit: 2,
  mark: 3,
  state: 4,
  low: 5,
  high: 6,
  reason: 7,
  workings: 9,
  given: 15,
  knownGood: 18,
  why: 36,
  curve: 39,
  lines: 45,
} as const;
export const WIDTHS = [34, 12, 6.5, 2.5, 9.5, 7.5, 7.5, 97, 3, 12, 12, 12, 12, 12] as const;
/** Characters from a column to the right edge of the page. */
export const widthFrom = (column: number) => WIDTHS.slice(column, LAST + 1).reduce((sum, width) => sum + width, 0);
/** Height of a plain row, in points. */
export const ROW = 12.75;
/** Height of a line of a reason [points]. */
export const LINE = 1.23 * LOOK.reason.size;
/** The last printed column. */
export const LAST = COLUMN.reason;
/** What CHECK answers, side by side. */
export const CHECK = { state: 0, low: 1, high: 2, chance: 3, reason: 4, columns: 5 } as const;

/** Rows of one check: its title, then one for each reading. */
export interface CheckRows {
  readonly check?: string;
  /** Row and number of the title; readings that no check takes have none. */
  readonly title?: number;
  readonly number?: string;
  readonly first: number;
  readonly entries: readonly string[];
}

export interface StageRows {
  readonly stage: string;
  /** Place in the working order, from 1. */
  readonly number: number;
  readonly title: number;
  readonly checks: readonly CheckRows[];
}

export interface FactRows {
  readonly title: number;
  readonly first: number;
  readonly entries: readonly string[];
}

/** Which row everything stands in, zero-based. */
export interface PageLayout {
  readonly facts: readonly FactRows[];
  /** First and last row of facts: the machine's data as functions get them. */
  readonly factRows: { readonly first: number; readonly last: number };
  readonly head: number;
  readonly stages: readonly StageRows[];
  readonly readingRows: { readonly first: number; readonly last: number };
  readonly proof: FactRows & { readonly how: number; readonly answer: number };
  readonly signature: number;
}

export function pageLayout(template: PageTemplate): PageLayout {
  let row = 1 + template.note.length;
  const facts = template.facts.map(({ entries }): FactRows => {
    const title = row;
    row += 1 + entries.length;
    return { title, first: title + 1, entries };
  });
  const factRows = { first: facts[0]!.title, last: row - 1 };
  const head = row++;
  const stages = template.stages.map(({ stage, checks, entries = [] }, i): StageRows => {
    const title = row++;
    const blocks: CheckRows[] = checks.map((check, j) => {
      const read = entriesOfCheck(check).map((entry) => entry.id);
      const block = { check, number: `${i + 1}.${j + 1}`, title: row, first: row + 1, entries: read };
      row += 1 + read.length;
      return block;
    });
    if (entries.length > 0) {
      blocks.push({ first: row, entries });
      row += entries.length;
    }
    return { stage, number: i + 1, title, checks: blocks };
  });
  const readingRows = { first: head + 1, last: row - 1 };
  const proofTitle = row;
  const proof = {
    title: proofTitle,
    how: proofTitle + 1,
    first: proofTitle + 2,
    entries: template.proof.entries,
    answer: proofTitle + 2 + template.proof.entries.length,
  };
  return { facts, factRows, head, stages, readingRows, proof, signature: proof.answer + 1 };
}

export function rowsOf({ first, last }: { readonly first: number; readonly last: number }): number {
  return last - first + 1;
}

/** The row of one of the facts. */
export function rowOfFact(layout: PageLayout, id: string): number | undefined {
  for (const { first, entries } of layout.facts) {
    const i = entries.indexOf(id);
    if (i >= 0) return first + i;
  }
  return undefined;
}
