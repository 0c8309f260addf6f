import type { TableTemplate } from "./counter-schema";
import { fixedRange, sheetPrefix } from "./address";
import { AS_TYPED } from "./input-cells";
import { LOOK } from "./look";
import type { ValidationRule } from "./port";
import { ROW } from "./page-layout";
import { drawHead, headerHeight, headerWidth, roomFor, rowBelowHead } from "./sheet-head";
import { SheetDraft, stretch } from "./sheet-draft";

/** A sheet of more characters across is printed sideways. */
const MOST_UPRIGHT = 180;

/** The header row and the rows below it, as a formula refers to them. */
export function tableRange(template: TableTemplate, sheet: string): string {
  const { rows, columns } = template;
  const area = { row: rowBelowHead(template), column: 0, rows: rows + 1, columns: columns.length };
  return `${sheetPrefix(sheet)}${fixedRange(area)}`;
}

/** Draws a table of the shop's own: title, note, header row, rows to fill in. */
export function drawTable(
  template: TableTemplate,
  sheet: string,
  values: readonly Readonly<Record<string, string | number>>[],
): SheetDraft {
  const { columns, rows, title } = template;
  const draft = new SheetDraft(sheet);
  const head = rowBelowHead(template);
  drawHead(draft, template, Math.min(columns.length, 10), 120);
  const widths = columns.map(({ label, width, choices = [] }) => Math.max(width, headerWidth(label), roomFor(choices)));
  const labels = columns.map(({ label }) => label);
  draft.format(stretch(head, 0, columns.length), LOOK.columnHead).height(head, headerHeight(labels, widths));
  columns.forEach(({ label, size = LOOK.input.size, ...cell }, column) => {
    draft.put(head, column, label).width(column, widths[column]!);
    const cells = stretch(head + 1, column, 1, rows);
    draft.format(cells, {
      ...LOOK.input,
      size,
      align: cell.format === undefined || cell.format === AS_TYPED ? "left" : "right",
      ...numberFormat(cell),
    });
    const rule = cellRule(label, cell);
    if (rule) draft.validate(cells, rule);
  });
  draft.fill(
    head + 1,
    columns.map(({ id }) => id),
    values,
  );
  for (let row = 1; row <= rows; row++) draft.height(head + row, ROW);
  const orientation = widths.reduce((sum, width) => sum + width, 0) > MOST_UPRIGHT ? "landscape" : "portrait";
  return draft
    .freeze(head + 1, template.frozenColumns)
    .print(columns.length, head + 1 + rows, { orientation, titleRows: head + 1 }, title);
}

interface CellWish {
  readonly format?: string | undefined;
  readonly choices?: readonly string[] | undefined;
  readonly hint?: string | undefined;
}

export function numberFormat({ format }: CellWish): { readonly number?: string } {
  return format === undefined ? {} : { number: format };
}

/** A pick list, or a hint beside the cell; nothing where the label says it all. */
export function cellRule(label: string, { choices, hint }: CellWish): ValidationRule | undefined {
  if (choices) return { kind: "list", choices, message: hint ?? `${label}: ${choices.join(", ")}` };
  return hint === undefined ? undefined : { kind: "hint", title: label, message: hint };
}
