/**
 * Bytes as text that packs well: most of them are small signed numbers, and a letter for each lets the packing
 * see which are common, as it cannot in Base64. The 89 smallest have a letter of their own, the others two.
 */
const LETTERS = Array.from({ length: 0x7f - 0x20 }, (_, i) => String.fromCharCode(0x20 + i))
  // Nothing that any kind of quotes would have to mask.
  .filter((letter) => !"\"'`\\".includes(letter))
  .join("");
/** The last letters say that a second one follows. */
const OWN = LETTERS.length - 2;

/** 0, −1, 1, −2, 2 … of a signed byte, counted from 0. */
const rankOf = (byte: number) => (byte < 128 ? 2 * byte : 511 - 2 * byte);
const byteOf = (rank: number) => (rank % 2 === 0 ? rank / 2 : (511 - rank) / 2);

export function toText(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) {
    const beyond = rankOf(byte) - OWN;
    text +=
      beyond < 0
        ? LETTERS[rankOf(byte)]!
        : LETTERS[OWN + Math.floor(beyond / LETTERS.length)]! + LETTERS[beyond % LETTERS.length]!;
  }
  return text;
}

export function fromText(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  let count = 0;
  for (let i = 0; i < text.length; i++) {
    let rank = LETTERS.indexOf(text[i]!);
    if (rank >= OWN) rank = OWN + (rank - OWN) * LETTERS.length + LETTERS.indexOf(text[++i]!);
    bytes[count++] = byteOf(rank);
  }
  return bytes.subarray(0, count);
}
