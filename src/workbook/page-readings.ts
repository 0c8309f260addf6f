import { CONDITIONS } from "../core/limits/conditions";
import { cellName, rangeName } from "./address";
import { shown, shownOrNothing } from "./blank-guard";
import { entryById, numberFormatOf, ruleOf, unitOf } from "./input-cells";
import { labelLook, LOOK, MARKS, READING_COLOURS, READING_STATES } from "./look";
import type { PageArguments } from "./page-arguments";
import { CHECK, COLUMN, ROW, WIDTHS } from "./page-layout";
import { stretch, type SheetDraft } from "./sheet-draft";
import { askedIn, saidCell, saidColours } from "./sheet-language";
import { linesOf } from "./text-lines";

/** Readings in rows, and beside them the state and limits that CHECK gives each. */
export function drawReadings(
  draft: SheetDraft,
  first: number,
  entries: readonly string[],
  given: PageArguments,
  values: Readonly<Record<string, string | number>>,
): void {
  entries.forEach((id, i) => {
    const row = first + i;
    drawInput(draft, row, id);
    const value = values[id];
    if (value !== undefined) draft.put(row, COLUMN.value, value);
  });
  // CHECK judges quantities; a word is chosen from a list.
  for (const run of runsOf(entries, (id) => entryById(id).kind === "quantity" && "judged")) {
    drawStates(draft, first + run.from, entries.slice(run.from, run.to), given);
  }
}

/** Readings of one sort that stand one below the other; those of no sort are in no run. */
export function runsOf(
  entries: readonly string[],
  sortOf: (id: string) => string | false,
): readonly { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number; readonly sort: string }[] = [];
  entries.forEach((id, i) => {
    const sort = sortOf(id);
    if (sort === false) return;
    const last = runs.at(-1);
    if (last?.to === i && last.sort === sort) last.to = i + 1;
    else runs.push({ from: i, to: i + 1, sort });
  });
  return runs;
}

/**
 * States, limits and reasons of some readings in one call. It spills into the workings, where nobody
 * types; plain cells show it on the page, and carry the colours: rules may never apply on the cell of
 * an add-in's function, and programs without the add-in keep the last values of plain cells only.
 */
function drawStates(
  draft: SheetDraft,
  first: number,
  entries: readonly string[],
  { readings, machine, knownGood }: PageArguments,
): void {
  const rows = entries.length;
  const labels = rangeName(stretch(first, COLUMN.label, 1, rows));
  const values = rangeName(stretch(first, COLUMN.given + 1, 1, rows));
  // The two between are the meter and the rule: the usual ones.
  const known = knownGood === undefined ? [] : ['""', '""', knownGood];
  const given = askedIn(draft.language, 7, [labels, values, machine, readings, ...known]);
  draft.put(first, COLUMN.workings, {
    formula: `=CHG.CHECK(${given.join(",")})`,
    spills: { rows, columns: CHECK.columns },
  });
  draft.format(stretch(first, COLUMN.workings, CHECK.columns, rows), LOOK.working);
  entries.forEach((id, i) => {
    if (CONDITIONS.has(id)) drawCondition(draft, first + i);
    else drawState(draft, first + i, id);
  });
}

function drawState(draft: SheetDraft, row: number, id: string): void {
  const answer = (column: number) => cellName(row, COLUMN.workings + column);
  const [pass, fail, unsure] = READING_COLOURS.map(({ equals }) => draft.say(equals));
  draft.put(row, COLUMN.state, {
    formula: shown(answer(CHECK.state), saidCell(answer(CHECK.state), READING_STATES, draft.language)),
  });
  draft.put(row, COLUMN.low, { formula: shownOrNothing(answer(CHECK.low)) });
  draft.put(row, COLUMN.high, { formula: shownOrNothing(answer(CHECK.high)) });
  const state = cellName(row, COLUMN.state);
  draft.put(row, COLUMN.mark, {
    formula: `=IFERROR(IF(${state}="${pass}","${MARKS.pass}",IF(${state}="${fail}","${MARKS.fail}",IF(${state}="${unsure}","${MARKS.unsure}",""))),"")`,
  });
  draft.format(stretch(row, COLUMN.mark, 1), { ...LOOK.answer, bold: true, align: "center" });
  draft.format(stretch(row, COLUMN.state, 1), { ...LOOK.answer, bold: true });
  draft.format(stretch(row, COLUMN.low, 2), {
    ...LOOK.answer,
    number: `${numberFormatOf(entryById(id))}_)_)`,
    align: "right",
  });
  const words = saidColours(READING_COLOURS, draft.language);
  for (const column of [COLUMN.value, COLUMN.mark]) {
    draft.colour(stretch(row, column, 1), {
      words,
      decidedBy: { rows: 0, columns: COLUMN.state - column },
    });
  }
  draft.colour(stretch(row, COLUMN.state, 1), { words });
}

/** What says how another reading was taken has no state; what cannot be read (`#VALUE!`, error 3) is said here too. */
function drawCondition(draft: SheetDraft, row: number): void {
  const state = cellName(row, COLUMN.workings + CHECK.state);
  draft.put(row, COLUMN.state, { formula: `=IF(ISERROR(${state}),IF(ERROR.TYPE(${state})=3,${state},""),"")` });
  draft.format(stretch(row, COLUMN.state, 1), { ...LOOK.answer, bold: true });
}

/** A label that is long takes smaller letters, and the longest ones two lines. */
function labelOf(draft: SheetDraft, id: string) {
  const label = draft.say(entryById(id).label);
  const look = labelLook([label], WIDTHS[COLUMN.label], LOOK.label.size - 1);
  return { label, look, lines: linesOf(label, WIDTHS[COLUMN.label], look.size) };
}

export function labelHeight(draft: SheetDraft, id: string): number {
  const { look, lines } = labelOf(draft, id);
  return lines === 1 ? ROW : lines * look.size * 1.23 + 1;
}

/** Label, cell to type into, unit. */
export function drawInput(draft: SheetDraft, row: number, id: string): void {
  const entry = entryById(id);
  const { label, look, lines } = labelOf(draft, id);
  draft
    .put(row, COLUMN.label, label)
    .format(stretch(row, COLUMN.label, 1), { ...look, ...(lines > 1 ? { wrap: true } : {}) })
    .height(row, labelHeight(draft, id));
  draft.format(stretch(row, COLUMN.value, 1), {
    ...LOOK.input,
    align: entry.kind === "quantity" ? "right" : "left",
    number: numberFormatOf(entry),
  });
  const unit = unitOf(entry);
  if (unit) draft.put(row, COLUMN.unit, unit).format(stretch(row, COLUMN.unit, 1), LOOK.quiet);
  const rule = ruleOf(entry, draft.language);
  if (rule) draft.validate(stretch(row, COLUMN.value, 1), rule);
}
