import { Inflate, unzipSync } from "fflate";
import { damaged } from "./open-package";

/** Packed bytes that are unpacked at a time: some 300 kB of a worksheet's text. */
const PIECE = 1 << 15;

/**
 * Unpacks one part of a package piece by piece, so that a long worksheet never lies in memory whole.
 *
 * @param bytes - The file, which has been found to be a package
 * @param name - What to call it in messages
 */
export function* partPieces(bytes: Uint8Array, part: string, name: string): Generator<string> {
  const decoder = new TextDecoder();
  for (const piece of unpacked(bytes, part, name)) yield decoder.decode(piece, { stream: true });
  yield decoder.decode();
}

function* unpacked(bytes: Uint8Array, part: string, name: string): Generator<Uint8Array> {
  const packed = deflated(bytes, part);
  if (!packed) {
    const whole = unzipSync(bytes, { filter: (file) => file.name === part })[part];
    if (whole) yield whole;
    return;
  }
  const pieces: Uint8Array[] = [];
  let ended = false;
  const inflate = new Inflate((piece, last) => {
    pieces.push(piece);
    ended ||= last;
  });
  for (let at = 0; at < packed.length && !ended; at += PIECE) {
    try {
      inflate.push(packed.subarray(at, at + PIECE), at + PIECE >= packed.length);
    } catch {
      throw damaged(name);
    }
    yield* pieces.splice(0);
  }
}

/** Signatures, and where their fields stand, of the archive's directory [PKWARE APPNOTE 4.3]. */
const END = 0x06054b50;
const END_BYTES = 22;
const ENTRY = 0x02014b50;
const ENTRY_BYTES = 46;
const LOCAL_BYTES = 30;
const DEFLATE = 8;
const TOO_LARGE = 0xffffffff;

/** Packed bytes of a part by the archive's directory; `undefined` where it is packed in another way. */
function deflated(bytes: Uint8Array, part: string): Uint8Array | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - END_BYTES;
  while (end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < 0) return undefined;
  const text = new TextDecoder();
  let at = view.getUint32(end + 16, true);
  while (at + ENTRY_BYTES <= end && view.getUint32(at, true) === ENTRY) {
    const size = view.getUint32(at + 20, true);
    const nameEnd = at + ENTRY_BYTES + view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    if (text.decode(bytes.subarray(at + ENTRY_BYTES, nameEnd)) === part) {
      if (view.getUint16(at + 10, true) !== DEFLATE || size === TOO_LARGE || local + LOCAL_BYTES > end)
        return undefined;
      const start = local + LOCAL_BYTES + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
      return bytes.subarray(start, start + size);
    }
    at = nameEnd + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return undefined;
}
