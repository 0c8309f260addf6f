import { AUDIT_NUMBERS } from "./audit-columns";
import { AUDIT_COLUMNS } from "../core/fleet/audit-columns";
import { CHECKS } from "../core/readings/checks";
import { PARTS, type Entry } from "../core/readings/types";
import { cellName } from "./address";
import { auditCall, routineSetting } from "./audit-formula";
import { guarded, shownOrNothing } from "./blank-guard";
import { entryById, headerOf, isDay, numberFormatOf, ruleOf } from "./input-cells";
import { listRange, type ListLayout } from "./list-layout";
import { ROW } from "./page-layout";
import { LOOK, PART_COLOURS, PART_STATES } from "./look";
import type { CellFormat } from "./port";
import { SheetDraft, stretch } from "./sheet-draft";
import { drawHead, headerHeight, headerWidth, roomFor } from "./sheet-head";
import { saidCell, saidColours, widthForWords, type SheetLanguage } from "./sheet-language";
import type { AuditColumn, ListTemplate } from "./template-schema";

/** Draws a list: title, note, header row from the catalogue, rows to fill in, results beside them. */
export function drawList(
  template: ListTemplate,
  layout: ListLayout,
  lists: ReadonlyMap<string, ListLayout>,
  values: readonly Readonly<Record<string, string | number>>[],
  language: SheetLanguage,
): SheetDraft {
  const draft = new SheetDraft(layout.sheet, language);
  const entries = template.columns.map(entryById);
  const headers = entries.map((entry) => headerOf(entry, language));
  const widths = entries.map((entry, i) => Math.max(roomOf(entry, language), headerWidth(headers[i]!)));
  const shownColumns = Math.min(entries.length, 12);
  const noteWidth = widths.slice(0, shownColumns).reduce((sum, width) => sum + width, 0);
  drawHead(draft, template, shownColumns, noteWidth);
  draft
    .format(stretch(layout.headerRow, 0, entries.length), LOOK.columnHead)
    .height(layout.headerRow, headerHeight(headers, widths));
  entries.forEach((entry, column) => {
    draft.put(layout.headerRow, column, headers[column]!).width(column, widths[column]!);
    const cells = stretch(layout.firstRow, column, 1, layout.rows);
    draft.format(cells, {
      ...LOOK.input,
      align: entry.kind === "quantity" ? "right" : "left",
      number: numberFormatOf(entry),
    });
    const rule = ruleOf(entry, language);
    if (rule) draft.validate(cells, rule);
  });
  draft.fill(layout.firstRow, template.columns, values);
  for (let r = 0; r < layout.rows; r++) draft.height(layout.firstRow + r, template.results ? TWO_LINES : ROW);
  const printed = drawResults(draft, template, layout, lists);
  const { firstRow } = layout;
  return draft
    .freeze(firstRow, template.frozenColumns)
    .print(printed, firstRow + layout.rows, { orientation: "landscape", titleRows: firstRow }, template.title);
}

/**
 * Results beside the list, all from one call, which spills into the workings at the right of the
 * printed area; plain cells show the columns that are wanted, in the order in which they are wanted.
 */
function drawResults(
  draft: SheetDraft,
  template: ListTemplate,
  layout: ListLayout,
  lists: ReadonlyMap<string, ListLayout>,
): number {
  const { results, columns } = template;
  if (!results) return columns.length;
  // An empty column keeps the list a region of its own.
  const first = columns.length + 1;
  const end = first + results.show.length;
  const workings = end + 1;
  draft.width(first - 1, 2).width(end, 3);
  const machines = lists.get(results.machines);
  const given = {
    table: guarded(listRange(layout)),
    machines: machines ? guarded(listRange(machines)) : "",
    settings: results.inOrder === undefined ? "" : routineSetting(results.inOrder),
  };
  draft.put(layout.headerRow - 1, workings, results.workings);
  draft.put(layout.headerRow, workings, {
    formula: `=${auditCall(given, draft.language)}`,
    spills: { rows: layout.rows + 1, columns: AUDIT_COLUMNS.length },
  });
  draft.format(stretch(layout.headerRow - 1, workings, AUDIT_COLUMNS.length, layout.rows + 2), LOOK.working);
  const words = saidColours(PART_COLOURS, draft.language);
  results.show.forEach((name, i) => {
    const column = first + i;
    const source = workings + AUDIT_COLUMNS.indexOf(name);
    const said = SAID[name] ?? [];
    const header = draft.say(name);
    const { width, ...look } = RESULT_LOOKS[name] ?? { width: widthForWords(said, draft.language) };
    draft.put(layout.headerRow, column, header).width(column, Math.max(width, headerWidth(header)));
    for (let row = layout.firstRow; row < layout.firstRow + layout.rows; row++) {
      draft.put(row, column, {
        formula: shownOrNothing(cellName(row, source), saidCell(cellName(row, source), said, draft.language)),
      });
    }
    const cells = stretch(layout.firstRow, column, 1, layout.rows);
    draft.format(cells, {
      ...LOOK.answer,
      size: 9,
      ...look,
      ...(AUDIT_NUMBERS[name] ? { number: AUDIT_NUMBERS[name], align: "right" } : {}),
      bold: name === "State",
    });
    if (name === "State") draft.colour(cells, { words });
  });
  draft.format(stretch(layout.headerRow, first, results.show.length), LOOK.columnHead);
  const state = results.show.indexOf("State");
  if (state >= 0) {
    draft.colour(stretch(layout.firstRow, 0, 1, layout.rows), {
      words,
      decidedBy: { rows: 0, columns: first + state },
    });
  }
  return end;
}

/** Answers that are one word of a few, which a sheet has in its language. */
const SAID: Readonly<Partial<Record<AuditColumn, readonly string[]>>> = {
  State: PART_STATES,
  Part: [...PARTS, "none"],
  "Next check": [...CHECKS.map(({ label }) => label), "none"],
};

/** Sentences and names that take two lines. */
const RESULT_LOOKS: Readonly<Partial<Record<AuditColumn, { readonly width: number } & CellFormat>>> = {
  "Next check": { width: 18, size: 8, wrap: true },
  Verdict: { width: 90, size: LOOK.fine.size, wrap: true },
};
/** Height of their rows [points]. */
const TWO_LINES = 19.5;

/** Characters that what is typed for an entry takes, with what a cell leaves free at its sides. */
function roomOf(entry: Entry, { choice }: SheetLanguage): number {
  // Beside the word stands the arrow of the list.
  if (entry.kind === "choice") return 2 + roomFor(entry.choices.map(({ value }) => choice(value)));
  return entry.kind === "quantity" ? 9 : isDay(entry) ? 12.5 : 15;
}
