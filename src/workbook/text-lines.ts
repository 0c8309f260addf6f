/** Letters by their width in hundredths of the size they are set in; any other is as wide as a digit. */
const WIDTHS: readonly (readonly [hundredths: number, letters: string])[] = [
  [24, " ijl'"],
  [30, "I.,:;f()-"],
  [35, "rt"],
  [43, "szLc"],
  [47, "FSkvxy"],
  [65, "ADGHUVNOQ"],
  [88, "mwMW%"],
];
const DIGIT = 53;
/** Narrowest that a column of a file is for each of its characters [px]; the screens' columns are wider, and so is their type. */
const CHARACTER_PX = 6;
const PX_PER_POINT = 4 / 3;

/** Characters of a column that `text` takes on one line, set in `size` points. */
export function charactersOf(text: string, size: number): number {
  let hundredths = 0;
  // An accent makes no letter wider.
  for (const letter of text.normalize("NFD").replaceAll(/\p{M}/gu, ""))
    hundredths += WIDTHS.find(([, letters]) => letters.includes(letter))?.[0] ?? DIGIT;
  return (hundredths * size * PX_PER_POINT) / (100 * CHARACTER_PX);
}

/** Lines that `text` takes in a column of so many `characters`, set in `size` points. */
export function linesOf(text: string, characters: number, size: number): number {
  const space = charactersOf(" ", size);
  let lines = 1;
  let used = 0;
  for (const word of text.split(" ")) {
    const wide = charactersOf(word, size);
    if (used > 0 && used + space + wide > characters) {
      lines += 1;
      used = wide;
    } else used += (used > 0 ? space : 0) + wide;
  }
  return lines;
}
