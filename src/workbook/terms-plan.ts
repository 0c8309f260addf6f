import type { TermsTemplate } from "./counter-schema";
import { fixedRange, sheetPrefix } from "./address";
import { LOOK } from "./look";
import { drawHead, rowBelowHead } from "./sheet-head";
import { SheetDraft, stretch } from "./sheet-draft";
import { cellRule, numberFormat } from "./table-plan";

const WIDTHS = [36, 18, 62] as const;

/** Labels and values, as a formula refers to them. */
export function termsRange(template: TermsTemplate, sheet: string): string {
  const area = { row: rowBelowHead(template) + 1, column: 0, rows: template.terms.length, columns: 2 };
  return `${sheetPrefix(sheet)}${fixedRange(area)}`;
}

/** Draws the shop's terms: a label, a value to type, what the value does. */
export function drawTerms(
  template: TermsTemplate,
  sheet: string,
  values: Readonly<Record<string, string | number>>,
): SheetDraft {
  const draft = new SheetDraft(sheet);
  const head = rowBelowHead(template);
  WIDTHS.forEach((width, column) => draft.width(column, width));
  drawHead(draft, template, WIDTHS.length, 116);
  const { term, value, about } = template.columns;
  [term, value, about].forEach((text, column) => draft.put(head, column, text));
  draft.format(stretch(head, 0, WIDTHS.length), LOOK.columnHead);
  const unknown = Object.keys(values).find((label) => !template.terms.some((row) => row.label === label));
  if (unknown !== undefined) throw new Error(`${template.id}: no row for "${unknown}".`);
  template.terms.forEach((row, i) => {
    const at = head + 1 + i;
    draft.put(at, 0, row.label).put(at, 2, row.about);
    const filled = values[row.label] ?? row.value;
    if (filled !== undefined) draft.put(at, 1, filled);
    draft.format(stretch(at, 1, 1), { ...LOOK.input, align: "right", ...numberFormat(row) });
    const rule = cellRule(row.label, { choices: row.choices });
    if (rule) draft.validate(stretch(at, 1, 1), rule);
  });
  const rows = template.terms.length;
  draft.format(stretch(head + 1, 0, 1, rows), LOOK.label).format(stretch(head + 1, 2, 1, rows), LOOK.quiet);
  return draft
    .freeze(head + 1, 1)
    .print(WIDTHS.length, head + 1 + rows, { orientation: "portrait", fitHeightPages: 1 });
}
