import { Unzip, UnzipInflate, unzipSync } from "fflate";
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
  const pieces: Uint8Array[] = [];
  let ended = false;
  const archive = new Unzip((file) => {
    if (file.name !== part) return;
    file.ondata = (error, piece, last) => {
      if (error) throw error;
      pieces.push(piece);
      ended ||= last;
    };
    file.start();
  });
  archive.register(UnzipInflate);
  let given = 0;
  for (let at = 0; at < bytes.length && !ended; at += PIECE) {
    try {
      archive.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
    } catch {
      yield whole(bytes, part, name).subarray(given);
      return;
    }
    for (const piece of pieces.splice(0)) {
      given += piece.length;
      yield piece;
    }
  }
}

/** By the archive's directory: where a size stands behind its part, packed bytes may pass for the end of it. */
function whole(bytes: Uint8Array, part: string, name: string): Uint8Array {
  try {
    return unzipSync(bytes, { filter: (file) => file.name === part })[part]!;
  } catch {
    throw damaged(name);
  }
}
