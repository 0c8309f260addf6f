let units = 0;

/**
 * An id for one more workbook. The engine keeps parsed formulas by workbook id for as long as the
 * program runs, so an id that was used before would bring back formulas of an engine that is gone.
 */
export function freshUnit(): string {
  return `workbook-${++units}`;
}
