import type { ComponentFit } from "./component-fit";
import type { Slopes } from "./known-coordinates";
import { inverseRoot, SMALLEST } from "./powers";

/** A component that fits this much worse than all of its mixture adds no digit that counts. */
const NO_SHARE = 1e-12;

/**
 * What mixtures foretell of single coordinates when everything else that is known of the vector looked at is given:
 * each component's own middle, weighed by how well it fits the (other) known ones.
 */
export class ForetoldCoordinates {
  /** Middles and spreads, a row a coordinate and in it a number a mixture; NaN until they are asked. */
  readonly centres: Float64Array;
  readonly spreads: Float64Array;
  /** Of each component while a coordinate is foretold: its share, its own middle, the distance of the rest. */
  private readonly shares: Float64Array;
  private readonly owns: Float64Array;
  private readonly rests: Float64Array;
  /** Of each mixture whether its components have the shares of all that is known. */
  private readonly shared: Uint8Array;

  constructor(private readonly fit: ComponentFit) {
    const count = fit.squares.length;
    const mixtures = fit.starts.length - 1;
    this.centres = new Float64Array(mixtures * fit.values.length);
    this.spreads = new Float64Array(mixtures * fit.values.length);
    this.shares = new Float64Array(count);
    this.owns = new Float64Array(count);
    this.rests = new Float64Array(count);
    this.shared = new Uint8Array(mixtures);
  }

  /** Nothing is foretold yet: another vector is looked at. */
  clear(): void {
    this.centres.fill(Number.NaN);
    this.shared.fill(0);
  }

  /** Foretells a coordinate under some mixtures, where it is not done yet; gives where its row begins. */
  rowOf(coordinate: number, mixtures: ArrayLike<number>): number {
    const row = coordinate * this.shared.length;
    const slopes = this.fit.pattern.slopesTo(coordinate);
    for (let i = 0; i < mixtures.length; i++) {
      const m = mixtures[i]!;
      if (!Number.isNaN(this.centres[row + m]!)) continue;
      if (slopes.place < 0) this.asUnknown(m, slopes);
      else this.withoutOwn(m, slopes);
      this.blend(m, row + m, slopes);
    }
    return row;
  }

  /** An unknown coordinate: the shares are those of the known ones, for all of them the same. */
  private asUnknown(mixture: number, slopes: Slopes): void {
    const { shares, owns } = this;
    const { pattern, white, starts } = this.fit;
    const { means, ofWhite, spreads } = slopes;
    if (this.shared[mixture] === 0) this.share(mixture);
    const n = pattern.known.length;
    const count = shares.length;
    const to = starts[mixture + 1]!;
    for (let c = starts[mixture]!; c < to; c++) {
      if (shares[c] === 0) continue;
      if (Number.isNaN(spreads[c]!)) pattern.solve(slopes, c);
      owns[c] = means[c]! + pull(ofWhite, white, c, n, count);
    }
  }

  private share(mixture: number): void {
    const { shares } = this;
    const { density, starts } = this.fit;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    let most = 0;
    for (let c = from; c < to; c++) most += density[c]!;
    let total = 0;
    for (let c = from; c < to; c++)
      total += shares[c] = density[c]! > NO_SHARE * most || most <= SMALLEST ? density[c]! : 0;
    this.divide(from, to, most > SMALLEST ? total : this.farShares(from, to, this.fit.squares));
    this.shared[mixture] = 1;
  }

  /** A known coordinate is foretold from the others: its own part is taken out of distance and share. */
  private withoutOwn(mixture: number, slopes: Slopes): void {
    const { shares, owns, rests } = this;
    const { pattern, white, squares, values, degrees, starts } = this.fit;
    const { place, ofWhite, spreads } = slopes;
    const n = pattern.known.length;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    this.shared[mixture] = 0;
    let total = 0;
    for (let c = from; c < to; c++) {
      if (Number.isNaN(spreads[c]!)) pattern.solve(slopes, c);
      const spread = spreads[c]!;
      const away = pull(ofWhite, white, c, n, shares.length) * spread;
      owns[c] = values[place]! - away * spread;
      rests[c] = Math.max(0, squares[c]! - away ** 2);
      shares[c] = pattern.jointFactors[c]! * spread * inverseRoot(1 + rests[c]! / degrees, degrees + n - 1);
      total += shares[c]!;
    }
    this.divide(from, to, total > SMALLEST ? total : this.farShares(from, to, rests, spreads));
  }

  /** Middle and spread of a mixture from those of its components. */
  private blend(mixture: number, at: number, { spreads }: Slopes): void {
    const { shares, owns } = this;
    const { starts } = this.fit;
    const from = starts[mixture]!;
    const to = starts[mixture + 1]!;
    let centre = 0;
    let second = 0;
    for (let c = from; c < to; c++) {
      const share = shares[c]!;
      if (share === 0) continue;
      centre += share * owns[c]!;
      second += share * (owns[c]! * owns[c]! + spreads[c]! * spreads[c]!);
    }
    this.centres[at] = centre;
    this.spreads[at] = to - from === 1 ? spreads[from]! : Math.sqrt(Math.max(second - centre * centre, 1e-12));
  }

  private divide(from: number, to: number, total: number): void {
    for (let c = from; c < to; c++) this.shares[c] = this.shares[c]! / total;
  }

  /**
   * Shares too small for a number, set anew against the greatest; gives their sum.
   *
   * @param own - Spreads of the coordinate that was taken out, where one was
   */
  private farShares(from: number, to: number, rests: Float64Array, own?: Float64Array): number {
    const { shares } = this;
    const { pattern, degrees } = this.fit;
    const { known, jointLogs } = pattern;
    const half = 0.5 * (degrees + known.length - (own ? 1 : 0));
    let top = -Infinity;
    for (let c = from; c < to; c++) {
      shares[c] = jointLogs[c]! + (own ? Math.log(own[c]!) : 0) - half * Math.log1p(rests[c]! / degrees);
      top = Math.max(top, shares[c]!);
    }
    let total = 0;
    for (let c = from; c < to; c++) total += shares[c] = Math.exp(shares[c]! - top);
    return total;
  }
}

/** What the whitened distances of a component move one of its coordinates by. */
function pull(ofWhite: Float64Array, white: Float64Array, c: number, n: number, count: number): number {
  let sum = 0;
  const end = (c + 1) * n;
  for (let w = c * n, v = c; w < end; w++, v += count) sum += ofWhite[w]! * white[v]!;
  return sum;
}
