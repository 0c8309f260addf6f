import { fixedRange, rangeName, sheetPrefix } from "./address";
import { guarded } from "./blank-guard";
import { entryById, headerOf, numberFormatOf, ruleOf } from "./input-cells";
import { listColumn, type ListLayout } from "./list-layout";
import { LOOK, STATE_COLOURS } from "./look";
import type { Area } from "./port";
import { linesOf, SheetDraft, stretch } from "./sheet-draft";
import type { ListTemplate } from "./template-schema";

const RESULT_WIDTHS = [20, 13, 9, 70] as const;

/** Draws a list: title, note, header row from the catalogue, rows to fill in, results beside them. */
export function drawList(
  template: ListTemplate,
  layout: ListLayout,
  lists: ReadonlyMap<string, ListLayout>,
  values: readonly Readonly<Record<string, string | number>>[],
): SheetDraft {
  const draft = new SheetDraft(layout.sheet);
  const entries = template.columns.map(entryById);
  const headers = entries.map(headerOf);
  const shownColumns = Math.min(entries.length, 10);
  draft.put(0, 0, template.title).format(stretch(0, 0, 1), LOOK.title).height(0, 22);
  const noteWidth = headers.slice(0, shownColumns).reduce((sum, header) => sum + widthOf(header), 0);
  template.note.forEach((line, i) => {
    const at = stretch(1 + i, 0, shownColumns);
    draft.put(at.row, 0, line).merge(at).format(at, LOOK.note).height(at.row, 12.5 * linesOf(line, noteWidth, 9) + 3);
  });
  draft.format(stretch(layout.headerRow, 0, entries.length), LOOK.columnHead).height(layout.headerRow, 40);
  entries.forEach((entry, column) => {
    draft.put(layout.headerRow, column, headers[column]!).width(column, widthOf(headers[column]!));
    const cells = stretch(layout.firstRow, column, 1, layout.rows);
    draft.format(cells, { ...LOOK.input, align: entry.kind === "quantity" ? "right" : "left", number: numberFormatOf(entry) });
    const rule = ruleOf(entry);
    if (rule) draft.validate(cells, rule);
  });
  values.forEach((row, r) => {
    for (const [id, value] of Object.entries(row)) {
      const column = template.columns.indexOf(id);
      if (column < 0) throw new Error(`${template.id}: no column for "${id}".`);
      draft.put(layout.firstRow + r, column, value);
    }
  });
  drawResults(draft, template, layout, lists);
  draft.step({ do: "freeze", sheet: layout.sheet, rows: layout.firstRow, columns: template.frozenColumns });
  draft.step({
    do: "print",
    at: printedArea(draft, layout),
    setup: { orientation: "landscape", fitWidthPages: 1, titleRows: layout.firstRow, footer: `${template.title.replaceAll("&", "&&")}   &P / &N` },
  });
  return draft;
}

/** One verdict for each row, beside the list and outside any table: each spills sideways only. */
function drawResults(draft: SheetDraft, template: ListTemplate, layout: ListLayout, lists: ReadonlyMap<string, ListLayout>): void {
  const results = template.results;
  if (!results) return;
  // An empty column keeps the list a region of its own.
  const first = template.columns.length + 1;
  draft.width(first - 1, 2);
  draft.put(layout.headerRow - 1, first, results.title).format(stretch(layout.headerRow - 1, first, 1), LOOK.note);
  results.headers.forEach((header, i) => {
    draft.put(layout.headerRow, first + i, header).width(first + i, RESULT_WIDTHS[i]!);
  });
  draft.format(stretch(layout.headerRow, first, results.headers.length), LOOK.columnHead);
  const headers = fixedRange(stretch(layout.headerRow, 0, template.columns.length));
  const machines = lists.get(results.machines.list);
  for (let r = layout.firstRow; r < layout.firstRow + layout.rows; r++) {
    const row = rangeName(stretch(r, 0, template.columns.length));
    const key = rangeName(stretch(r, template.columns.indexOf(results.machines.by), 1));
    const given = [sideBySide(headers, guarded(row)), ...(machines ? [machineOf(machines, results.machines.by, key)] : [])];
    draft.put(r, first, {
      formula: `=IF(COUNTA(${row})=0,"",CHG.${results.call}(${given.join(",")}))`,
      spills: { rows: 1, columns: results.headers.length },
    });
  }
  const block = stretch(layout.firstRow, first, results.headers.length, layout.rows);
  draft.format(block, { ...LOOK.answer, size: 9 });
  draft.format(stretch(layout.firstRow, first + 2, 1, layout.rows), { number: "0%", align: "right" });
  draft.colour(stretch(layout.firstRow, 0, 1, layout.rows), { words: STATE_COLOURS, decidedBy: { rows: 0, columns: first + 1 } });
  draft.colour(stretch(layout.firstRow, first + 1, 1, layout.rows), { words: STATE_COLOURS });
}

/** A row under its headers, turned into the two columns that functions read. */
function sideBySide(headers: string, row: string): string {
  return `CHOOSE({1,2},TRANSPOSE(${headers}),TRANSPOSE(${row}))`;
}

/** The machine's own row of another list; nothing where that list does not know it. */
function machineOf(list: ListLayout, by: string, key: string): string {
  const prefix = sheetPrefix(list.sheet);
  const headers = prefix + fixedRange(stretch(list.headerRow, 0, list.columns.length));
  const rows = prefix + fixedRange({ row: list.firstRow, column: 0, rows: list.rows, columns: list.columns.length });
  return `IFERROR(${sideBySide(headers, guarded(`INDEX(${rows},MATCH(${key},${listColumn(list, by)},0),0)`))},"")`;
}

function printedArea(draft: SheetDraft, layout: ListLayout): Area {
  return { ...draft.whole(), rows: layout.firstRow + layout.rows };
}

/** Wide enough for the longest word and for a header in three lines. */
function widthOf(header: string): number {
  const longest = Math.max(...header.split(/\s/u).map((word) => word.length));
  return Math.min(24, Math.max(10, longest + 2, Math.ceil(header.length / 2.6)));
}
