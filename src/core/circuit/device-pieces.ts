import { openPieces, piecesOf, shortPieces, type DiodeAt } from "./diode-law";

/** Own resistance of a controlled device, in series with its diode law [Ω]. */
const CONTROLLED_OHMS = 3e-3;

/**
 * The pieces of every kind of device behind one another, so that a device is one index: it tells
 * the kind, and the piece the device works on. `low` and `high` bound a piece [V].
 */
export interface PieceTable {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly slope: Float64Array;
  readonly offset: Float64Array;
  /** 1 on a piece that carries current forward. */
  readonly conducts: Uint8Array;
  /** First piece of each kind. */
  readonly plain: number;
  readonly controlled: number;
  readonly blocked: number;
  readonly shorted: number;
}

export function pieceTable(diode: DiodeAt, shortOhms: number): PieceTable {
  const kinds = [piecesOf(diode), piecesOf(diode, CONTROLLED_OHMS), openPieces(), shortPieces(shortOhms)];
  const starts: number[] = [];
  const low: number[] = [];
  const high: number[] = [];
  const slope: number[] = [];
  const offset: number[] = [];
  const conducts: number[] = [];
  for (const kind of kinds) {
    starts.push(slope.length);
    kind.slope.forEach((value, k) => {
      low.push(kind.from[k]!);
      high.push(kind.from[k + 1]!);
      slope.push(value);
      offset.push(kind.offset[k]!);
      conducts.push(k > 0 ? 1 : 0);
    });
  }
  const [plain, controlled, blocked, shorted] = starts as [number, number, number, number];
  return {
    low: Float64Array.from(low),
    high: Float64Array.from(high),
    slope: Float64Array.from(slope),
    offset: Float64Array.from(offset),
    conducts: Uint8Array.from(conducts),
    plain,
    controlled,
    blocked,
    shorted,
  };
}
