import { CAUSES_WEIGHED } from "../core/quote/faults-behind";
import { PARTS } from "../core/readings/types";
import { cellName, fixedCell, fixedRange, sheetPrefix } from "./address";
import { guarded, shown, shownOrNothing } from "./blank-guard";
import type { QuoteTemplate } from "./counter-schema";
import { labelLook, LOOK, PART_STATES } from "./look";
import { drawHead, headerHeight, rowBelowHead } from "./sheet-head";
import { askedIn, ENGLISH, saidCell, type SheetLanguage } from "./sheet-language";
import { SheetDraft, stretch } from "./sheet-draft";
import { cellRule, numberFormat } from "./table-plan";

export interface Place {
  readonly row: number;
  readonly column: number;
}

/** What a quote is worked out from, wherever it stands in the workbook. */
export interface QuoteSources {
  readonly jobSheet: string;
  /** First of the four cells that VERDICT fills, and of the two of NEXTCHECK. */
  readonly verdict: Place;
  readonly nextCheck: Place;
  /** First of the cells that CAUSES fills; absent where the job's sheet has none. */
  readonly causes?: Place | undefined;
  /** Cells of the job's facts, by catalogue id. */
  readonly facts: ReadonlyMap<string, Place>;
  /** Ranges with their sheets. */
  readonly prices: string;
  readonly terms: string;
}

const WIDTHS = [25, 15, 36, 9, 10.5, 10.5, 9.5, 34] as const;
const COLUMNS = WIDTHS.length;
/** With room on the right: a note begins beside the tax. */
const MONEY = "#,##0.00#_)";
const OVER_MONEY = "@_)";
const KIND = { kind: 0, description: 2, quantity: 3, unit: 4, net: 5, tax: 6 } as const;
/** Beside the facts. */
const RIGHT = 3;
/** What the functions answer stands at the right of the printed page. */
const WORKINGS = COLUMNS + 1;
/** Beside the verdict, where the lines do not spill: fault, part, chance. */
const CAUSES = { at: WORKINGS + COLUMNS + 1, columns: 3 } as const;
/** Height of a line: a description in two, a note in three [points]. */
const LINE_ROW = 25.75;
const REASON_ROWS = 6;
const MARK_ROWS = 3;
/** Reason and header come before the lines in what QUOTE answers. */
const LINES_FROM = 2;
/** Rows that the answer may have beyond those on paper. */
const SPARE_ROWS = 20;

/** A cell of the lines on paper, which shows what the function at `answer` says there. */
export function lineFormula(answer: Place, line: number, column: number): string {
  return shownOrNothing(cellName(answer.row + LINES_FROM + line, answer.column + column));
}

/** Where everything of a quote stands. */
export function quoteLayout(template: QuoteTemplate) {
  const title = rowBelowHead(template);
  const facts = title + 1;
  const lines = facts + template.facts.rows.length + 2;
  const roleRow = (role: NonNullable<QuoteTemplate["facts"]["rows"][number]["role"]>) => {
    const i = template.facts.rows.findIndex((row) => row.role === role);
    if (i < 0) throw new Error(`${template.id}: no row for the ${role}.`);
    return facts + i;
  };
  return { title, facts, roleRow, head: lines - 1, lines, more: lines + template.lines, answer: facts + 2 };
}

/** Draws the customer's quote, to be printed on one page. */
export function drawQuote(
  template: QuoteTemplate,
  sheet: string,
  sources: QuoteSources,
  values: Readonly<Record<string, string | number>>,
  language: SheetLanguage = ENGLISH,
): SheetDraft {
  const draft = new SheetDraft(sheet, language);
  const layout = quoteLayout(template);
  WIDTHS.forEach((width, column) => draft.width(column, width));
  draft.width(COLUMNS, 3);
  drawHead(
    draft,
    template,
    COLUMNS,
    WIDTHS.reduce((sum, width) => sum + width, 0),
  );
  drawFacts(draft, template, sources, values);
  drawWorkings(draft, template, sources);
  drawShown(draft, template);
  drawLines(draft, template);
  const foot = layout.more + 1;
  template.signature.forEach((words, i) => {
    draft.put(foot + 1, i * 3, words).format(stretch(foot, i * 3, 2), LOOK.line);
  });
  draft.height(foot, 26).format(stretch(foot + 1, 0, COLUMNS), LOOK.quiet);
  return draft.freeze(1, 0).print(COLUMNS, foot + 2, { orientation: "portrait", fitHeightPages: 1 });
}

function drawFacts(
  draft: SheetDraft,
  template: QuoteTemplate,
  { jobSheet, facts }: QuoteSources,
  values: Readonly<Record<string, string | number>>,
): void {
  const { title, facts: first } = quoteLayout(template);
  const { rows } = template.facts;
  draft.put(title, 0, template.facts.title).format(stretch(title, 0, 2), LOOK.heading);
  const unknown = Object.keys(values).find((label) => !rows.some((row) => row.label === label));
  if (unknown !== undefined) throw new Error(`${template.id}: no row for "${unknown}".`);
  rows.forEach((row, i) => {
    const at = first + i;
    const source = row.from === undefined ? undefined : facts.get(row.from);
    const value = values[row.label];
    draft.put(at, 0, row.label).format(stretch(at, 1, 1), { ...LOOK.input, align: "left", ...numberFormat(row) });
    if (value !== undefined) draft.put(at, 1, value);
    else if (source)
      draft.put(at, 1, { formula: shown(`${sheetPrefix(jobSheet)}${cellName(source.row, source.column)}`) });
    const rule = cellRule(row.label, row);
    if (rule) draft.validate(stretch(at, 1, 1), rule);
  });
  const labels = rows.map(({ label }) => label);
  draft.format(stretch(first, 0, 1, rows.length), labelLook(labels, WIDTHS[0]));
}

/** The verdict as it stands now, and the quote from it; both spill where nobody types. */
function drawWorkings(draft: SheetDraft, template: QuoteTemplate, sources: QuoteSources): void {
  const { title, facts, answer, roleRow } = quoteLayout(template);
  draft.put(title, WORKINGS, template.workings).format(stretch(title, WORKINGS, 1), LOOK.working);
  const copy = (row: number, from: Place, columns: number, rows = 1, column: number = WORKINGS): string => {
    const to = stretch(row, column, columns, rows);
    for (let r = 0; r < rows; r++) {
      for (let c = 0; c < columns; c++) {
        const cell = `${sheetPrefix(sources.jobSheet)}${cellName(from.row + r, from.column + c)}`;
        draft.put(row + r, column + c, { formula: shownOrNothing(cell) });
      }
    }
    draft.format(to, LOOK.working);
    return fixedRange(to);
  };
  const verdict = copy(facts, sources.verdict, 4);
  const next = copy(facts + 1, sources.nextCheck, 2);
  const causes = sources.causes ? copy(facts, sources.causes, CAUSES.columns, CAUSES_WEIGHED, CAUSES.at) : undefined;
  const job = fixedRange(stretch(facts, 0, 2, template.facts.rows.length));
  const way = fixedCell(roleRow("way"), 1);
  const quoted = [verdict, sources.prices, sources.terms, way, next, job, ...(causes ? [causes] : [])];
  const given = askedIn(draft.language, 7, quoted.map(guarded));
  const spill = stretch(answer, WORKINGS, COLUMNS, template.lines + LINES_FROM + SPARE_ROWS);
  draft.put(answer, WORKINGS, { formula: `=CHG.QUOTE(${given.join(",")})`, spills: spill }).format(spill, LOOK.working);
}

/** Beside the facts: what is quoted and why, and whether that is still so. */
function drawShown(draft: SheetDraft, template: QuoteTemplate): void {
  const { title, facts, answer, roleRow, lines } = quoteLayout(template);
  const { shown: words } = template;
  draft.put(title, RIGHT, words.title).format(stretch(title, RIGHT, COLUMNS - RIGHT), LOOK.heading);
  const reason = fixedCell(answer, WORKINGS + KIND.description);
  const first = fixedCell(answer, WORKINGS);
  const totalIn = (row: number, at: number, rows: number) => {
    const column = (c: number) => fixedRange(stretch(row, at + c, 1, rows));
    return `INDEX(${column(KIND.net)},MATCH("${draft.say("total")}",${column(KIND.kind)},0))`;
  };
  const total = totalIn(lines, 0, template.lines);
  // Lines that a customer has answered to stay as they were.
  const held = `IFERROR(${total},"")<>IFERROR(${totalIn(answer + LINES_FROM, WORKINGS, SPARE_ROWS + template.lines)},"")`;
  const at = stretch(facts, RIGHT, COLUMNS - RIGHT, REASON_ROWS);
  draft
    .put(facts, RIGHT, {
      formula: `=IF(${held},"${words.held}",IF(ISERROR(${first}),"${words.cannot}",IF(${reason}="","${words.nothing}",${reason})))`,
    })
    .merge(at)
    .format(at, LOOK.prose);
  const [part, state] = [fixedCell(facts, WORKINGS), fixedCell(facts, WORKINGS + 1)];
  const [then, quoted] = [fixedCell(roleRow("verdict"), 1), fixedCell(roleRow("total"), 1)];
  const now = `${saidCell(part, PARTS, draft.language)}&": "&${saidCell(state, PART_STATES, draft.language)}`;
  const repriced = `IF(ISNUMBER(${quoted}),IFERROR(IF(ROUND(${quoted}-${total},3)<>0,"${words.repriced}"&${quoted},""),""),"")`;
  const outdated = `IF(${then}=${now},${repriced},"${words.outdated}"&${then}&"${words.nowIs}"&${now})`;
  const [until, decision] = [fixedCell(roleRow("valid"), 1), fixedCell(roleRow("decision"), 1)];
  const over = `IF(ISNUMBER(${until}),IF(AND(${decision}="",TODAY()>${until}),"${words.expired}"&${isoDay(until)}&". ",""),"")`;
  const mark = stretch(facts + REASON_ROWS, RIGHT, COLUMNS - RIGHT, MARK_ROWS);
  draft
    .put(mark.row, RIGHT, { formula: `=${over}&IF(OR(${then}="",${part}=""),"",${outdated})` })
    .merge(mark)
    .format(mark, { ...LOOK.prose, size: 11, bold: true, colour: "8A3B00" });
}

/** A day as `2026-11-25`; the letters of a date format are other ones in other languages of the host. */
function isoDay(cell: string): string {
  const two = (part: string) => `RIGHT("0"&${part}(${cell}),2)`;
  return `YEAR(${cell})&"-"&${two("MONTH")}&"-"&${two("DAY")}`;
}

/** Lines, totals and ways, as the function gives them, in plain cells that print and can be formatted. */
function drawLines(draft: SheetDraft, template: QuoteTemplate): void {
  const { head, lines, more, answer } = quoteLayout(template);
  template.columns.forEach((text, column) => draft.put(head, column, text));
  draft
    .format(stretch(head, 0, COLUMNS), LOOK.columnHead)
    .format(stretch(head, KIND.quantity, 1), { align: "right" })
    .format(stretch(head, KIND.unit, 3), { align: "right", number: OVER_MONEY })
    .height(head, headerHeight(template.columns, WIDTHS));
  for (let i = 0; i < template.lines; i++) {
    draft.height(lines + i, LINE_ROW);
    for (let column = 0; column < COLUMNS; column++) {
      draft.put(lines + i, column, { formula: lineFormula({ row: answer, column: WORKINGS }, i, column) });
    }
  }
  const all = (column: number, columns = 1) => stretch(lines, column, columns, template.lines);
  draft.format(all(0, COLUMNS), { ...LOOK.answer, size: 9 });
  draft.format(all(KIND.description), { wrap: true });
  draft.format(all(COLUMNS - 1), { size: LOOK.fine.size, wrap: true });
  draft.format(all(KIND.quantity, 4), { align: "right" });
  draft.format(all(KIND.unit, 3), { number: MONEY });
  const strong = [{ equals: draft.say("total"), fill: "DCE6EA", colour: "1F4E5F" }];
  for (const column of [KIND.description, KIND.net]) {
    draft.colour(all(column), { words: strong, decidedBy: { rows: 0, columns: KIND.kind - column } });
  }
  const beyond = cellName(answer + LINES_FROM + template.lines, WORKINGS + KIND.description);
  draft.put(more, 0, { formula: `=IFERROR(IF(${beyond}="","","${template.shown.more}"),"")` });
  draft.format(stretch(more, 0, COLUMNS), LOOK.quiet);
}
