/** Six digits without `#`; other spellings of a colour are not of our making. */
export function hexOf(colour: string | null | undefined): string | undefined {
  return /^#([0-9a-f]{6})$/iu.exec(colour ?? "")?.[1]?.toUpperCase();
}
