/**
 * Blank cells of a range, handed to a function, may arrive as zeros; with this they arrive as text of
 * nothing in every host.
 */
export function guarded(range: string): string {
  return `IF(${range}="","",${range})`;
}

/** Shows another cell, as it is or `as` a formula makes it; blank where that is blank, instead of zero. */
export function shown(cell: string, as = cell): string {
  return `=IF(${cell}="","",${as})`;
}

/** As `shown`; an error shows as nothing, where another cell already says it. */
export function shownOrNothing(cell: string, as = cell): string {
  return `=IFERROR(IF(${cell}="","",${as}),"")`;
}
