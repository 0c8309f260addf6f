/**
 * Digits as a sentence shows them: a negative number has a minus sign, U+2212, which no line breaks after and nobody
 * takes for a hyphen. Not for cells that hold numbers; what is typed is read with either.
 */
export function signed(digits: string): string {
  return digits.replace(/^-/u, "−");
}
