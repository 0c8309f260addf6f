/**
 * Blank cells of a range, handed to a function, may arrive as zeros; with this they arrive as text of
 * nothing in every host.
 */
export function guarded(range: string): string {
  return `IF(${range}="","",${range})`;
}

/** Shows another cell; blank where that is blank, instead of zero. */
export function shown(cell: string): string {
  return `=IF(${cell}="","",${cell})`;
}

/** As `shown`; an error shows as nothing, where another cell already says it. */
export function shownOrNothing(cell: string): string {
  return `=IFERROR(IF(${cell}="","",${cell}),"")`;
}
