/** Columns of a quote as cells, and of its sheet. */
export const QUOTE_COLUMNS = [
  "Kind",
  "Part number",
  "Description",
  "Quantity",
  "Unit price",
  "Net",
  "Tax",
  "Note",
] as const;
