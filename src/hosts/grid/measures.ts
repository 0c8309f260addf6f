/** Width of a digit in the grid's own font, and what a cell leaves free at its sides [px]. */
const DIGIT_PX = 7;
const PADDING_PX = 5;

export function columnPixels(characters: number): number {
  return Math.round(characters * DIGIT_PX + PADDING_PX);
}

export function columnCharacters(pixels: number): number {
  return Math.round(((pixels - PADDING_PX) / DIGIT_PX) * 10) / 10;
}

/** A point is 4/3 px; lines on a screen stand a little wider apart than on paper. */
const PX_PER_POINT = (4 / 3) * 1.125;
/** Below this the arrow of a list and the text beside it do not fit. */
const LOWEST_ROW_PX = 22;

export function rowPixels(points: number): number {
  return Math.max(LOWEST_ROW_PX, Math.round(points * PX_PER_POINT));
}

export function rowPoints(pixels: number): number {
  return Math.round((pixels / PX_PER_POINT) * 10) / 10;
}
