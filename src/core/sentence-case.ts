/** A text with a capital at its beginning; the rest stays as it is. */
export function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
