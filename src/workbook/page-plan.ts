import { CAUTIONS } from "../core/readings/cautions";
import { stepsOf } from "../core/readings/check-steps";
import { checkOf } from "../core/readings/catalogue";
import type { Check } from "../core/readings/types";
import { cellName, fixedCell, rangeName } from "./address";
import { entryById } from "./input-cells";
import { listColumn, type ListLayout } from "./list-layout";
import { LOOK, READING_STATES } from "./look";
import {
  COLUMN,
  LAST,
  pageLayout,
  rowOfFact,
  ROW,
  WIDTHS,
  widthFrom,
  type CheckRows,
  type FactRows,
  type PageLayout,
  type PageSetting,
  type StageRows,
} from "./page-layout";
import { drawInput, drawReadings } from "./page-readings";
import { drawObjections, drawReasons } from "./page-reasons";
import { drawGiven, type PageArguments } from "./page-arguments";
import { drawCurve } from "./page-curve";
import { drawVerdict } from "./page-verdict";
import type { CellFormat } from "./port";
import { SheetDraft, stretch } from "./sheet-draft";
import { drawHead } from "./sheet-head";
import { widthForWords } from "./sheet-language";
import { linesOf } from "./text-lines";
import type { PageTemplate } from "./template-schema";
import { sentenceCase } from "../core/sentence-case";

/** Draws a technician's page for one machine: facts and verdict on top, checks in working order, proof, signature. */
export function drawPage(setting: PageSetting): SheetDraft {
  const { template, sheet } = setting;
  const layout = pageLayout(template);
  const draft = new SheetDraft(sheet, setting.language);
  WIDTHS.forEach((width, column) => draft.width(column, width));
  draft.width(COLUMN.state, Math.max(WIDTHS[COLUMN.state], widthForWords(READING_STATES, draft.language)));
  drawHead(draft, template, LAST + 1, widthFrom(0));
  template.facts.forEach((facts, i) => drawFacts(draft, setting, layout, layout.facts[i]!, facts));
  const given = drawGiven(draft, setting, layout);
  drawVerdict(draft, setting, layout, given);
  drawCurve(draft, setting, layout, given);
  drawColumnHeads(draft, template, layout);
  for (const stage of layout.stages) {
    drawStage(draft, template, stage);
    for (const rows of stage.checks) drawCheck(draft, rows, given, setting.values);
  }
  drawProof(draft, template, layout, given);
  drawSignature(draft, template, layout);
  return draft
    .freeze(1, 0)
    .print(LAST + 1, layout.signature + 2, { orientation: "portrait", fitHeightPages: 2 }, template.title);
}

function drawFacts(
  draft: SheetDraft,
  { lists, values }: PageSetting,
  layout: PageLayout,
  rows: FactRows,
  { title, lookUp, tall }: PageTemplate["facts"][number],
): void {
  draft
    .put(rows.title, 0, title)
    .format(stretch(rows.title, 0, COLUMN.mark), LOOK.heading)
    .height(rows.title, ROW + 2);
  const list = lookUp && lists.get(lookUp.list);
  const keyRow = lookUp && rowOfFact(layout, lookUp.by);
  rows.entries.forEach((id, i) => {
    const row = rows.first + i;
    drawInput(draft, row, id);
    // Words need more room than a number and its unit; of a long story at least the beginning is seen.
    const long = tall?.includes(id);
    if (entryById(id).kind !== "quantity")
      draft.merge(stretch(row, COLUMN.value, 2)).format(stretch(row, COLUMN.value, 2), {
        ...LOOK.input,
        wrap: true,
        ...(long ? { size: 9, vertical: "top" } : {}),
      });
    if (long) draft.height(row, ROW * 3);
    const value = values[id];
    if (value !== undefined) draft.put(row, COLUMN.value, value);
    else if (list && keyRow !== undefined) {
      const fetched = lookUpFormula(list, lookUp.by, id, fixedCell(keyRow, COLUMN.value));
      if (fetched) draft.put(row, COLUMN.value, { formula: fetched });
    }
  });
}

/** Fetches a value from a list's row; blank stays blank, and an unknown name fetches nothing. */
function lookUpFormula(list: ListLayout, by: string, id: string, key: string): string | undefined {
  const [keys, cells] = [listColumn(list, by), listColumn(list, id)];
  if (!keys || !cells) return undefined;
  const found = `INDEX(${cells},MATCH(${key},${keys},0))`;
  return `=IF(${key}="","",IFERROR(IF(${found}="","",${found}),""))`;
}

function drawColumnHeads(draft: SheetDraft, { columns }: PageTemplate, { head }: PageLayout): void {
  const heads: [number, string][] = [
    [COLUMN.label, columns.reading],
    [COLUMN.value, columns.value],
    [COLUMN.unit, columns.unit],
    [COLUMN.state, columns.state],
    [COLUMN.low, columns.low],
    [COLUMN.high, columns.high],
    [COLUMN.reason, columns.reason],
  ];
  for (const [column, text] of heads) draft.put(head, column, text);
  draft.format(stretch(head, 0, LAST + 1), LOOK.columnHead).height(head, 15);
}

/**
 * A stage's name, and beside it every caution of its steps, each once. Titles are numbered: several
 * checks share their name with a reading, and a label column must say each reading only once.
 */
function drawStage(draft: SheetDraft, template: PageTemplate, { stage, number, title: row, checks }: StageRows): void {
  const cautions = [...new Set(checks.flatMap(({ check }) => (check ? checkFor(check).cautions : [])))].map((id) =>
    draft.say(CAUTIONS[id]),
  );
  const text = `${template.caution}: ${cautions.join(" ")}`;
  drawTitled(draft, row, `${number}  ${draft.say(sentenceCase(stage))}`, LOOK.stage, text, LOOK.caution);
}

function drawCheck(
  draft: SheetDraft,
  { check, number, title, first, entries }: CheckRows,
  given: PageArguments,
  values: PageSetting["values"],
): void {
  if (check && title !== undefined) {
    const { label, minutes, tools } = checkFor(check);
    const say = (text: string) => draft.say(text);
    const text = [...stepsOf(check).map(say), `(${minutes} min; ${tools.map(say).join(", ")})`].join(" ");
    drawTitled(draft, title, `${number}  ${say(label)}`, LOOK.step, text, LOOK.how);
  }
  drawReadings(draft, first, entries, given, values);
  drawReasons(draft, first, entries, given);
}

type Sized = CellFormat & { readonly size: number };

/** A title, and beside it up to the edge of the page a text in as many lines as it takes. */
function drawTitled(draft: SheetDraft, row: number, title: string, titleLook: Sized, text: string, look: Sized): void {
  draft.put(row, COLUMN.label, title).put(row, COLUMN.unit, text);
  draft.format(stretch(row, COLUMN.label, 2), titleLook);
  const at = stretch(row, COLUMN.unit, LAST + 1 - COLUMN.unit);
  const lines = linesOf(text, widthFrom(COLUMN.unit), look.size);
  draft
    .merge(at)
    .format(at, look)
    .height(row, Math.max(1.275 * titleLook.size, 1.23 * look.size * lines + 2));
}

function drawProof(draft: SheetDraft, { proof }: PageTemplate, layout: PageLayout, given: PageArguments): void {
  const rows = layout.proof;
  draft.put(rows.title, COLUMN.label, proof.title);
  draft.format(stretch(rows.title, 0, LAST + 1), LOOK.heading).height(rows.title, ROW + 2);
  const how = stretch(rows.how, 0, LAST + 1);
  draft.put(rows.how, 0, proof.how).merge(how).format(how, LOOK.how).height(rows.how, ROW);
  drawReadings(draft, rows.first, rows.entries, { ...given, readings: given.proof }, {});
  drawObjections(draft, rows.first, rows.entries, given);
  const states = rangeName(stretch(rows.first, COLUMN.state, 1, rows.entries.length));
  const typed = rangeName(stretch(rows.first, COLUMN.value, 1, rows.entries.length));
  const must = proof.must.map(
    (id) => `${cellName(rows.first + rows.entries.indexOf(id), COLUMN.state)}="${draft.say("pass")}"`,
  );
  draft.put(rows.answer, COLUMN.label, proof.answer).format(stretch(rows.answer, 0, 1), { ...LOOK.label, bold: true });
  draft.put(rows.answer, COLUMN.value, {
    formula: `=IF(COUNTA(${typed})=0,"${proof.notRead}",IF(COUNTIF(${states},"${draft.say("fail")}")>0,"${proof.notCured}",IF(AND(${must.join(",")}),"${proof.proven}","${proof.unproven}")))`,
  });
  draft.format(stretch(rows.answer, COLUMN.value, 1), { ...LOOK.label, bold: true }).height(rows.answer, ROW + 3);
}

function drawSignature(draft: SheetDraft, { signature }: PageTemplate, layout: PageLayout): void {
  const row = layout.signature;
  draft.height(row, ROW * 2).height(row + 1, ROW);
  const [first, second, third] = signature;
  // Three lines across the page: over the label, over the states, over the reasons.
  const places: [number, string | undefined][] = [
    [COLUMN.label, first],
    [COLUMN.state, second],
    [COLUMN.reason, third],
  ];
  draft
    .format(stretch(row, COLUMN.label, 2), LOOK.line)
    .format(stretch(row, COLUMN.state, 3), LOOK.line)
    .format(stretch(row, COLUMN.reason, 1), LOOK.line);
  for (const [column, text] of places) {
    if (text) draft.put(row + 1, column, text).format(stretch(row + 1, column, 1), LOOK.quiet);
  }
}

function checkFor(id: string): Check {
  const check = checkOf(id);
  if (!check) throw new Error(`No check "${id}" in the catalogue.`);
  return check;
}
